/**
 * Uses the extension as a user does, in the real editor: `npm run test:editor`. `node tests/workbench/run.mjs view` tries the drawing alone.
 * The steps build on one another, as an afternoon's work does; each ends with what must be seen before the next.
 */
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { QUILLWAKE, SEDGEWAKE } from './boats.mjs';
import { liveView } from './live-view.mjs';
import { Workbench, launchBrowser, startServer, until } from './workbench.mjs';

const repo = resolve(fileURLToPath(import.meta.url), '../../..');
const program = join(repo, '.workbench/code-server/lib/vscode/out/server-main.js');
const vsix = join(repo, 'out/orlop.vsix');
const shots = join(repo, '.workbench/shots');
if (!existsSync(program)) {
    console.error('The editor is not installed: run tests/workbench/install.sh first.');
    process.exit(1);
}

/** More would only be what follows from these. */
const MOST_FAILURES = 3;
let steps = [];
const step = (name, run) => steps.push({ name, run });

const root = mkdtempSync(join(tmpdir(), 'orlop-editor-'));
const workspace = join(root, 'boats');
const quillwake = join(workspace, 'quillwake/quillwake.orlop');
const sedgewake = join(workspace, 'sedgewake/sedgewake.orlop');
for (const [file, text] of [[quillwake, QUILLWAKE], [sedgewake, SEDGEWAKE]]) {
    mkdirSync(resolve(file, '..'), { recursive: true });
    writeFileSync(file, text);
}
const onDisk = (file) => readFileSync(file, 'utf8');

let server;
let browser;
/** @type {Workbench} */
let editor;
const shot = (name) => editor.page.screenshot({ path: join(shots, `${name}.png`) });
const has = (text) => until(`\`${text}\` in the text`, async () => (await editor.text()).includes(text));
const hasNot = (text) => until(`no \`${text}\` in the text`, async () => !(await editor.text()).includes(text));

step('findings stand in the problems panel under their rules\' codes', async () => {
    await editor.openFile('quillwake', 'quillwake.orlop');
    await editor.problem('SHUT-AT-TANK', 'There is no shutoff at the fitting of T1');
    await editor.problem('SHUTOFF-BEFORE-FILTER', 'F1 cannot be shut off from T1');
    await until('an underline', () => editor.squiggles());
    await shot('01-findings');
});

step('words of the language, comments, figures and text have faces of their own', async () => {
    const keyword = await editor.face('supply course', 'supply course Feed');
    const comment = await editor.face('Quillwake, an invented launch', '-- Quillwake');
    const figure = await editor.face('8.40 m', 'length 8.40 m');
    const quoted = await editor.face('inside of hull', 'heights from');
    const faces = [keyword, comment, figure, quoted];
    assert.equal(new Set(faces.map((face) => face.class)).size, 4, JSON.stringify(faces));
    assert.equal(new Set(faces.map((face) => face.colour)).size, 4, JSON.stringify(faces));
});

step('hover on a filter tells its figures', async () => {
    await editor.caret('filter F1', 'filter '.length);
    await editor.hover('F1 primary filter', 'holds 400 mL', 'passes 10 um', 'height 640 mm');
    await shot('02-hover');
    await editor.press('Escape');
});

step('figures are shown in the text when they are switched on', async () => {
    // 0.7 x 0.5 x 0.4 m = 140 L; 0.95 x 140 less 0.7 x 0.5 x 0.025 m = 8.75 L under the pickup: 124.25 L.
    await editor.command('Orlop: Show or hide figures in the text');
    await has('140 L, 124 L usable upright');
    await shot('02-figures');
    await editor.command('Orlop: Show or hide figures in the text');
    await hasNot('124 L usable upright');
});

step('go to definition jumps from the end of a course to its engine', async () => {
    await editor.caret('T1.P1 to E1', 'T1.P1 to '.length);
    await editor.press('F12');
    const line = QUILLWAKE.split('\n').findIndex((text) => text.startsWith('engine E1')) + 1;
    await until(`the cursor on line ${line}`, async () => (await editor.position())?.startsWith(`${line}:`));
    await shot('03-definition');
});

step('a quick fix puts a shutoff at the tank, and the finding goes', async () => {
    await editor.caret('hose S1', 'hose '.length);
    await editor.actions('Put a shutoff at T1');
    await shot('04-quick-fix');
    await editor.act('Put a shutoff at T1');
    await has('  shutoff V1   normally open\n  hose S1');
    await editor.noProblem('SHUT-AT-TANK');
    await editor.noProblem('SHUTOFF-BEFORE-FILTER');
    await shot('05-fixed');
});

step('an unknown unit is answered with the unit that was meant', async () => {
    await editor.caret('hose S2       bore 8 mm', 'hose S2       bore 8 mm'.length);
    await editor.press('Backspace');
    await editor.type('n');
    await has('hose S2       bore 8 mn');
    const said = await editor.problem('mn', 'Did you mean');
    assert.match(said, /Did you mean `(8 )?mm`\?/);
    await editor.press('Escape');
    await shot('06-unit');
    await editor.press('Backspace');
    await editor.type('m');
    await editor.noProblem('Did you mean');
});

step('completion in a course offers the parts of a line', async () => {
    await editor.caret('hose S3', 0);
    await editor.press('End');
    await editor.press('Escape');
    await editor.press('Enter');
    const offered = await editor.completions();
    await shot('07-completion');
    for (const word of ['hose', 'filter']) assert.ok(offered.includes(word), `${word} is not among ${offered.join(', ')}`);
    await editor.type('gau');
    await until('gauge is first', async () => (await editor.completions())[0] === 'gauge');
    await editor.press('Enter');
    await has('gauge G1 vacuum');
    await shot('08-completed');
    await editor.press('Escape');
    await editor.press('Escape');
});

step('a code action writes the bleed sequence after opening a filter', async () => {
    const title = 'Write the bleed sequence of E1 after opening F1';
    await editor.caret('filter F1', 'filter '.length);
    await editor.actions(title);
    await shot('09-actions');
    await editor.act(title);
    await has('bleed E1   after opening F1');
    const text = await editor.text();
    assert.match(text, /bleed E1 .*kept \{/);
    for (const line of ['bleed BS1 by PR1', 'start E1']) assert.ok(text.includes(line), `${line} is not in the block`);
    await editor.noProblem('BLEED-KEPT');
    await shot('10-bleed');
});

step('a code action writes the usual intervals', async () => {
    await editor.caret('tank T1', 'tank '.length);
    await editor.act('Write the usual intervals');
    await has('tend {');
    await has('renew F1 element');
    await shot('11-intervals');
});

step('a changed figure underlines the step that tells it, and the block can be brought up to date', async () => {
    await editor.caret('stroke 15 mL', 'stroke 15'.length);
    await editor.press('Backspace');
    await editor.type('0');
    await has('stroke 10 mL');
    await editor.problem('BLEED-KEPT', 'no longer true');
    await editor.press('Escape');
    await shot('12-stale');
    const before = (await editor.lines()).find((line) => line.text.includes('bleed BS1 by PR1')).text;
    await editor.caret('bleed BS1 by PR1', 2);
    await editor.act('Bring the bleed sequence of E1 up to date');
    await editor.noProblem('BLEED-KEPT');
    await until('other figures', async () => (await editor.lines()).find((line) => line.text.includes('bleed BS1 by PR1'))?.text !== before);
    await shot('13-up-to-date');
});

step('without the primer the steps that pump with it are underlined; with it again all is well', async () => {
    const primer = (await editor.lines()).find((line) => line.text.includes('primer PR1')).text.trim();
    await editor.caret('primer PR1');
    await editor.press('Control+Shift+k');
    await hasNot('primer PR1');
    const { number } = (await editor.lines()).find((line) => line.text.includes('bleed BS1 by PR1'));
    await editor.problem('BLEED-KEPT', `[Ln ${number}, `);
    await editor.caret('bleed BS1 by PR1', 2);
    await editor.actions('Bring the bleed sequence of E1 up to date');
    await shot('14-no-primer');
    await editor.press('Escape');
    await editor.caret('hose S1');
    await editor.press('End');
    await editor.press('Enter');
    await editor.type(primer);
    await editor.press('Escape');
    await has(`\n  ${primer}\n  hose S2`);
    await editor.noProblem('BLEED-KEPT');
    await shot('15-primer-again');
});

step('where no sequence can be made, the finding says why', async () => {
    await editor.caret('shutoff V1');
    await editor.press('Control+Shift+k');
    await editor.caret('primer PR1');
    await editor.press('Control+Shift+k');
    await hasNot('primer PR1');
    await editor.problem('BLEED-KEPT', 'can no longer be made', 'F1 cannot be bled');
    await shot('16-refused');
    await editor.press('Control+z');
    await editor.press('Control+z');
    await has('shutoff V1');
    await has('primer PR1');
    await editor.noProblem('BLEED-KEPT');
});

step('the saved file has the text', async () => {
    await editor.save('quillwake.orlop');
    const saved = onDisk(quillwake);
    for (const words of ['shutoff V1   normally open', 'stroke 10 mL', 'gauge G1 vacuum', 'after opening F1', 'tend {']) assert.ok(saved.includes(words), `${words} is not in the file`);
    assert.equal(saved.trimEnd(), (await editor.text()).trimEnd());
});

step('a rename in one boat leaves the names of the other alone', async () => {
    const before = onDisk(quillwake);
    await editor.openFile('sedgewake', 'sedgewake.orlop');
    await editor.caret('shutoff V1', 'shutoff '.length);
    await editor.rename('V9');
    await has('shutoff V9');
    await has('{ V9 shut }');
    await hasNot('V1 shut');
    await shot('17-renamed');
    await editor.save('sedgewake.orlop');
    assert.equal(onDisk(sedgewake), SEDGEWAKE.replace('shutoff V1', 'shutoff V9').replace('{ V1 shut }', '{ V9 shut }'));
    assert.equal(onDisk(quillwake), before);
    assert.equal(await editor.tab('quillwake.orlop').evaluate((tab) => tab.classList.contains('dirty')), false);
});

step('nothing failed behind the user\'s back', async () => {
    assert.deepEqual(await editor.notifications(), []);
    assert.deepEqual(editor.errors, []);
});

if (process.argv[2] === 'view') steps = [];
liveView({ step, repo, root, shots, open: async (folder) => (editor = await Workbench.open(browser, server.url, folder)) });

let passed = 0;
let failed = 0;
try {
    rmSync(shots, { recursive: true, force: true });
    mkdirSync(shots, { recursive: true });
    server = await startServer({ program, root, vsix });
    browser = await launchBrowser();
    if (process.argv[2] !== 'view') editor = await Workbench.open(browser, server.url, workspace);
    for (const { name, run } of steps) {
        const start = Date.now();
        try {
            if (failed >= MOST_FAILURES) throw new Error('not tried: too much failed before');
            await run();
            passed += 1;
            console.log(`passed  ${name} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
        } catch (error) {
            failed += 1;
            console.log(`failed  ${name}\n        ${error.message.replace(/\n/g, '\n        ')}`);
            await shot(`failed-${failed}`).catch(() => {});
            for (let i = 0; i < 3; i++) await editor.press('Escape').catch(() => {});
        }
    }
} catch (error) {
    console.log(`failed  the editor does not start\n        ${error.message}`);
    failed = steps.length - passed;
} finally {
    await browser?.close();
    await server?.stop();
    rmSync(root, { recursive: true, force: true, maxRetries: 5 });
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
