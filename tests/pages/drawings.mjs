/**
 * Drawings as a browser shows them: nothing stands on anything else, nothing is too small, nothing lies outside; a name is words and never markup. All sheets in one page,
 * one after the other; the browser says where its words stand, and what is drawn is read from the file.
 */
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const repo = resolve(fileURLToPath(import.meta.url), '../../..');

/** The drawing program and what judges a sheet, bundled as the programs are. */
async function bundled() {
    const outdir = join(repo, 'out/pages');
    await build({ entryPoints: ['sheets', 'looks'].map((name) => join(repo, `tests/pages/${name}.ts`)), outdir, outExtension: { '.js': '.cjs' }, bundle: true, platform: 'node', target: 'node20', format: 'cjs', minify: true, logLevel: 'warning' });
    const require = createRequire(import.meta.url);
    return { ...require(join(outdir, 'sheets.cjs')), ...require(join(outdir, 'looks.cjs')) };
}

/** In the page: the sheet is read as a file is, shown, and the boxes of its texts told in the units of the sheet. */
function shown(svg) {
    const read = new DOMParser().parseFromString(svg, 'image/svg+xml');
    const error = read.querySelector('parsererror');
    if (error) return { faults: [`it is no SVG: ${error.textContent.replace(/\s+/g, ' ').slice(0, 160)}`], boxes: [] };
    const faults = [];
    for (const { localName, attributes } of read.querySelectorAll('*')) {
        if (['script', 'foreignObject', 'image', 'a', 'use', 'style', 'iframe'].includes(localName)) faults.push(`there is a <${localName}> in it`);
        for (const { name } of attributes) if (/^on|href/i.test(name)) faults.push(`there is a ${name}="…" in it`);
    }
    if (read.querySelectorAll('svg').length !== 1) faults.push('there is more than one drawing in it');
    document.body.replaceChildren(document.importNode(read.documentElement, true));
    const { left, top } = document.body.firstChild.getBoundingClientRect();
    const boxes = [...document.querySelectorAll('text')].map((text) => { const box = text.getBoundingClientRect(); return { left: box.left - left, top: box.top - top, right: box.right - left, bottom: box.bottom - top }; });
    if ('seized' in globalThis) faults.push('a name ran as a script');
    return { faults, boxes };
}

/** What is wrong with each sheet, by its name; and what finds nothing must be able to find something. */
export async function drawings(browser, test, refuses) {
    const { sheets, wrongWith } = await bundled();
    const page = await browser.context.newPage();
    await page.setContent('<body style="margin:0">');
    const look = async (sheet) => { const { faults, boxes } = await page.evaluate(shown, sheet.svg); return faults.length > 0 ? faults : wrongWith(sheet, boxes); };
    const plain = (body) => ({ kind: 'elevation', svg: `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100" viewBox="0 0 200 100"><g>${body}</g></svg>` });
    const said = (words, x, y, size = 10) => `<text x="${x}" y="${y}" font-size="${size}">${words}</text>`;
    await refuses('words on words are found', () => look(plain(said('port tank', 10, 20) + said('starboard', 30, 24))), /`port tank` and `starboard` stand on one another/);
    await refuses('words on a line are found', () => look(plain(`${said('port tank', 10, 20)}<path class="line" stroke="#000" fill="none" d="M0 17H100"/>`)), /stands on a line/);
    await refuses('words outside are found', () => look(plain(said('port tank', 180, 20))), /outside of the sheet/);
    await refuses('small words are found', () => look(plain(`<g transform="scale(0.5)">${said('port tank', 20, 40, 12)}</g>`)), /6\.0 px high/);
    await refuses('what is no XML is found', () => look(plain('<path d="M0 0" d="M0 0"/>')), /no SVG/);
    await refuses('a script is found', () => look(plain('<script>1</script>')), /<script>/);
    await test('words beside a line, and over one on a ground of their own, are let pass', () => look(plain(`<path class="line" stroke="#000" fill="none" d="M0 17H150"/><rect class="paper" fill="#fff" stroke="none" x="8" y="10" width="60" height="12"/>${said('port tank', 10, 20)}${said('on', 100, 32)}`)));

    const all = await sheets(repo);
    const wrong = new Map();
    const start = Date.now();
    for (const sheet of all) wrong.set(sheet, await look(sheet));
    const took = ((Date.now() - start) / 1000).toFixed(1);
    for (const kind of ['schematic', 'elevation']) await test(`${all.filter((sheet) => sheet.kind === kind).length} sheets of kind ${kind} can be read as they are drawn (all looked at in ${took} s)`, () => all.filter((sheet) => sheet.kind === kind).flatMap((sheet) => wrong.get(sheet).map((words) => `${sheet.name}: ${words}`)));
    await page.close();
}

// By itself: node tests/pages/drawings.mjs
if (process.argv[1] === fileURLToPath(import.meta.url)) {
    const { Browser } = await import('./browser.mjs');
    const browser = await Browser.start();
    let failed = 0;
    const test = async (name, find) => { let found; try { found = await find(); } catch (error) { found = [error.stack]; } if (found.length > 0) failed += 1; console.log(`${found.length > 0 ? 'failed' : 'passed'}  ${name}${found.map((words) => `\n        ${words}`).join('')}`); };
    await drawings(browser, test, (name, find, words) => test(name, async () => { const found = await find(); return found.some((line) => words.test(line)) ? [] : [`it lets pass what it should refuse; found: ${found.join('; ') || 'nothing'}`]; }));
    await browser.stop();
    process.exitCode = failed > 0 ? 1 : 0;
}
