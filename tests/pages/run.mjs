/**
 * Printed procedures, judged by what others made: `npm run test:pages`. The built program prints every procedure of the examples and of
 * a boat with hostile names; DITA is held against the document types, Markdown read by a reader of Markdown, and each HTML page opened in a browser.
 */
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Browser } from './browser.mjs';
import { differs, folders, UNFIT, writeTwin } from './boats.mjs';
import { invalid } from './dita.mjs';
import { drawings } from './drawings.mjs';
import { foreign, skeleton, words } from './markdown.mjs';

const repo = resolve(fileURLToPath(import.meta.url), '../../..');
const program = join(repo, 'out/orlop.cjs');
const catalog = join(repo, '.workbench/dita/catalog.xml');
const shots = join(repo, '.workbench/pages');
const faulty = join(repo, 'tests/pages/faulty');
if (!existsSync(catalog)) {
    console.error('The document types are not there: run tests/pages/install.sh first.');
    process.exit(1);
}

const root = mkdtempSync(join(tmpdir(), 'orlop-pages-'));
let passed = 0;
let failed = 0;

/** One thing that must hold; what is found against it is told, the first few. */
async function test(name, find) {
    const start = Date.now();
    let found;
    try {
        found = await find() ?? [];
    } catch (error) {
        found = [error.message];
    }
    const took = `${((Date.now() - start) / 1000).toFixed(1)} s`;
    if (found.length === 0) {
        passed += 1;
        console.log(`passed  ${name} (${took})`);
    } else {
        failed += 1;
        console.log(`failed  ${name} (${took}): ${found.length} found\n${found.slice(0, 8).map((words) => `        ${words.replaceAll(`${root}/`, '').replace(/\n/g, '\n        ')}`).join('\n')}`);
    }
}

/** What a check finds in a page with a fault, which it must. */
const refuses = (name, find, words) => test(name, async () => {
    const found = await find();
    return found.some((line) => words.test(line)) ? [] : [`it lets pass what it should refuse; found: ${found.join('; ') || 'nothing'}`];
});

/** All pages of a boat, printed into a folder of its own. */
async function print(boat, name) {
    const folder = join(root, name);
    const { code, stderr } = await new Promise((done) => {
        execFile(process.execPath, [program, 'procedure', boat, '--all', '--write', folder], { maxBuffer: 1 << 28 }, (error, _, said) => done({ code: error === null ? 0 : error.code ?? 'a signal', stderr: said }));
    });
    assert.ok([0, 1, 2, 3].includes(code) && !/\n\s+at /.test(stderr), `\`procedure\` ended with ${code}: ${stderr.slice(0, 500)}`);
    const files = existsSync(folder) ? readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name)).sort() : [];
    const of = (...endings) => files.filter((file) => endings.some((ending) => file.endsWith(ending)));
    return { name, folder, files, html: of('.html'), markdown: of('.md'), dita: of('.dita', '.ditamap') };
}

const text = (file) => readFileSync(file, 'utf8');
/** What comes of each of many, two at a time, in order. */
async function each(all, ask) {
    const answers = [];
    let next = 0;
    const work = async () => {
        while (next < all.length) {
            const i = next++;
            answers[i] = await ask(all[i], i);
        }
    };
    await Promise.all([work(), work()]);
    return answers;
}
/** What a question finds in each of many files. */
const inEach = async (files, ask) => (await each(files, async (file, i) => (await ask(file, i)).map((words) => `${basename(file)}: ${words}`))).flat();
/** A few of many, spread evenly. */
const some = (files, count) => files.filter((_, i) => i % Math.ceil(files.length / count) === 0);
/** Pages with steps, not an index. */
const hasSteps = (file) => text(file).includes('type="checkbox"');
const longest = (files) => files.reduce((best, file) => text(file).length > text(best).length ? file : best);

const browser = await Browser.start();
try {
    // What finds nothing must be able to find something.
    await refuses('a topic with the prerequisites behind the result is refused', () => invalid(catalog, [join(faulty, 'order.dita')]), /order\.dita:\d+: element taskbody: validity error/);
    await refuses('a topic with a sign that XML does not know is refused', () => {
        writeFileSync(join(root, 'bell.dita'), text(join(faulty, 'good.dita')).replace('cock', 'cock\u0007'));
        return invalid(catalog, [join(root, 'bell.dita')]);
    }, /bell\.dita:\d+: parser error/);
    await test('a good topic is not refused', () => invalid(catalog, [join(faulty, 'good.dita')]));
    await refuses('HTML in Markdown is found', () => foreign('Open <b>V1</b>.', () => false), /HTML: <b>/);
    await refuses('a link that leads away is found', () => foreign('Open [V1](https://hostile.invalid).', () => false), /a link to https/);
    await refuses('a picture from elsewhere is found', () => foreign('![V1](https://hostile.invalid/v1.svg)', () => false), /an image: V1/);
    await refuses('a name that lost a sign is found', () => differs('Open V1 (a b).', 'Open V1 (plainaa).', new Map([['plainaa', 'a < b']])), /`OpenV1\(ab\)\.` in place of `OpenV1\(a<b\)\.`/);
    await refuses('a name that became a heading is found', () => skeleton('Open\n\n# V1').some((kind, i) => kind !== skeleton('Open V1')[i]) ? ['built otherwise'] : [], /otherwise/);
    const page = (name) => join(faulty, `${name}.html`);
    await refuses('a table too wide for a telephone is found', () => browser.fits(page('wide')), /at 360 px/);
    await refuses('a word torn in two is found', () => browser.fits(page('torn')), /at 360 px `open` is torn in two/);
    await refuses('what is cut off on paper is found', () => browser.fits(page('scrolls')), /on A4/);
    await refuses('a script that broke is found', () => browser.fits(page('runs')), /script: .*broken/);
    await refuses('a name that runs is found', () => browser.fits(page('runs')), /a name ran as a script/);
    await refuses('a request is found', () => browser.fits(page('runs')), /a request to .*missing\.png/);
    await refuses('a pale print is found', () => browser.accessible(page('pale')), /light, 360 px: color-contrast/);
    await refuses('paper that is printed dark is found', () => browser.print(page('pale')), /the paper is rgb\(20, 20, 20\)/);
    await refuses('a step that may be torn between two sheets is found', () => browser.print(page('pale')), /may be torn/);
    await refuses('a box without words is found', () => browser.accessible(page('pale')), /light, 360 px: label/);
    await refuses('a box that no key reaches is found', () => browser.keyboard(page('pale')), /the Tab key reaches 2$/);
    await refuses('words that only a script writes are found', () => browser.scriptless(page('runs')), /only with scripts: written/);

    await drawings(browser, test, refuses);

    rmSync(shots, { recursive: true, force: true });
    mkdirSync(shots, { recursive: true });
    const examples = join(repo, 'examples');
    const boats = [...folders(examples).map((name) => ({ name, boat: join(examples, name) })), { name: 'hostile', boat: join(repo, 'tests/pages/hostile') }];
    const printed = new Map();
    const prints = await each(boats, ({ name, boat }) => print(boat, name).catch((error) => error));
    for (const [i, { name }] of boats.entries()) {
        await test(`${name}: every procedure is printed in three forms`, () => {
            const pages = prints[i];
            if (pages instanceof Error) return [pages.message];
            printed.set(name, pages);
            const { files, html, markdown, dita } = pages;
            const small = files.map((file) => file.toLowerCase());
            return [
                ...(html.length === 0 ? ['there is no page'] : []),
                ...[['Markdown', markdown], ['DITA', dita]].filter(([, some]) => some.length < html.length).map(([form, some]) => `${some.length} files of ${form} for ${html.length} of HTML`),
                ...files.filter((_, i) => small.indexOf(small[i]) !== i).map((file) => `${basename(file)}: some file systems take it for another file`),
                ...[...html, ...markdown, ...dita].filter((file) => UNFIT.test(text(file))).map((file) => `${basename(file)}: it holds signs that nobody sees or that turn the order of others`),
            ];
        });
    }
    for (const { name, files, html, markdown, dita } of printed.values()) {
        if (html.length === 0) continue;
        await test(`${name}: ${dita.length} files of DITA are valid`, () => invalid(catalog, dita));
        await test(`${name}: ${markdown.length} pages of Markdown hold no HTML and lead nowhere else`, () => inEach(markdown, async (file) => foreign(text(file), (to) => files.includes(join(dirname(file), to)))));
        await test(`${name}: ${html.length} pages fit a telephone and a sheet of paper, and ask for nothing`, () => inEach(html, (file) => browser.fits(file)));
        // Each look takes its time: a few pages of each boat get all, those of one boat one each, in turn.
        const sample = some(html, 3);
        await test(`${name}: ${sample.length} pages are accessible, light and dark, narrow and wide`, () => inEach(sample, (file) => browser.accessible(file)));
        if (name === 'hostile') await test(`${name}: ${html.length} pages are accessible, one way each`, () => inEach(html, (file, i) => browser.accessible(file, i)));
        const one = longest(html.filter(hasSteps));
        await test(`${name}: ${basename(one)} is worked by keyboard`, () => browser.keyboard(one));
        await test(`${name}: ${basename(one)} is read without scripts`, () => browser.scriptless(one));
        const other = html.find((file) => file !== one && hasSteps(file));
        await test(`${name}: ticks stay where they were set, and are cleared by one press`, async () => {
            const found = await browser.tick(one, [0, 2]);
            assert.deepEqual(await browser.ticked(one), [0, 2]);
            if (other !== undefined) assert.deepEqual(await browser.ticked(other), []);
            return [...found, ...await browser.cleared(one)];
        });
        await test(`${name}: ${basename(one)} is printed on A4`, () => browser.print(one, join(shots, `${name}.pdf`)));
        await browser.pictures(one, join(shots, name));
        await test(`${name}: links lead to pages that are there`, () => inEach(html, async (file) => [...text(file).matchAll(/ href="([^"#]+)/g)].map(([, to]) => decodeURI(to)).filter((to) => !files.includes(join(dirname(file), to))).map((to) => `a link to ${to}`)));
    }

    await test('ottilwake: ticks are gone when the page tells of another boat', async () => {
        const before = printed.get('ottilwake').html.find((file) => /renew-F1-element/.test(file));
        await browser.tick(before, [1]);
        assert.deepEqual(await browser.ticked(before), [1]);
        // F1 holds more: other strokes are to be expected.
        const boat = join(root, 'later');
        mkdirSync(boat);
        for (const file of readdirSync(join(examples, 'ottilwake'))) writeFileSync(join(boat, file), text(join(examples, 'ottilwake', file)).replace('holds 450 mL', 'holds 900 mL'));
        const after = (await print(boat, 'ottilwake-later')).html.find((file) => basename(file) === basename(before));
        assert.notEqual(text(after), text(before));
        copyFileSync(after, before);
        assert.deepEqual(await browser.ticked(before), []);
    });

    await test('hostile: names are read as names in every form, and are never markup', async () => {
        const hostile = printed.get('hostile');
        const plain = writeTwin(join(repo, 'tests/pages/hostile'), join(root, 'twin-boat'));
        const twin = await print(join(root, 'twin-boat'), 'twin');
        const names = ({ folder, files }) => files.map((file) => relative(folder, file));
        assert.deepEqual(names(hostile), names(twin));
        const found = [];
        const compare = (file, [one, its], [other, others]) => {
            const at = one.findIndex((kind, i) => kind !== other[i]);
            if (at !== -1 || one.length !== other.length) found.push(`${file}: it is built otherwise than with plain names: \`${one.slice(at, at + 3)}\` in place of \`${other.slice(at, at + 3)}\``);
            else found.push(...differs(its, others, plain).map((words) => `${file}: ${words}`));
        };
        for (const [i, file] of hostile.markdown.entries()) {
            const [one, other] = [text(file), text(twin.markdown[i])];
            compare(basename(file), [skeleton(one), words(one).join('\n')], [skeleton(other), words(other).join('\n')]);
        }
        for (const [form, type] of [['html', 'text/html'], ['dita', 'application/xml']]) {
            const [ones, others] = [await browser.parsed(hostile[form].map(text), type), await browser.parsed(twin[form].map(text), type)];
            for (const [i, one] of ones.entries()) compare(basename(hostile[form][i]), [one.elements, one.words], [others[i].elements, others[i].words]);
        }
        return found;
    });
} finally {
    await browser.stop();
    rmSync(root, { recursive: true, force: true, maxRetries: 5 });
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
