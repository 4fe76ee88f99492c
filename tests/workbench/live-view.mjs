/** The drawing beside the text, as its reader uses it. The steps build on one another, in a window of their own. */
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { SEDGEWAKE } from './boats.mjs';
import { until } from './workbench.mjs';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const BOAT = 'ottilwake';
/** What a drawing that is saved may be inked in: white, black and the one accent (src/documents/drawing/svg.ts). */
const INKS = ['#fff', '#000', '#96243f', 'none'];
/** Of text on its ground: WCAG 2.2, success criterion 1.4.3. */
const READABLE = 4.5;

/** `open` opens a folder in a window of the editor that has its data under `root`. */
export function liveView({ step, repo, root, shots, open }) {
    const workspace = join(root, 'drawn');
    mkdirSync(workspace, { recursive: true });
    cpSync(join(repo, 'examples', BOAT), join(workspace, BOAT), { recursive: true });
    mkdirSync(join(workspace, 'sedgewake'));
    writeFileSync(join(workspace, 'sedgewake/sedgewake.orlop'), SEDGEWAKE);

    /** @type {import('./workbench.mjs').Workbench} */
    let editor;
    const refusals = [];
    const view = () => editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    const within = (ask, given) => view().locator('body').evaluate(ask, given);
    const symbol = (id) => view().locator(`#paper [data-id="${id}"]`);
    const drawn = (id) => until(`${id} in the drawing`, async () => await symbol(id).count() === 1);
    const framed = (id) => until(`a frame around ${id}`, async () => await symbol(id).locator('> .here').count() === 1);
    const told = (words) => until(`"${words}" over the drawing`, async () => { const said = await view().locator('#told').innerText(); if (words === '' ? said === '' : said.includes(words)) return true; throw new Error(said); });
    const onLine = (number) => until(`the cursor on line ${number}`, async () => (await editor.position())?.startsWith(`${number}:`));
    const lineOf = async (words) => (await editor.lines()).find(({ text }) => text.includes(words)).number;
    const eye = () => within(() => { const { scrollLeft, scrollTop } = document.getElementById('sheet'); return { width: document.getElementById('paper').offsetWidth, scrollLeft, scrollTop }; });
    const shot = (name) => editor.page.screenshot({ path: join(shots, `${name}.png`) });
    /** A new line under the one with these words. */
    const typeUnder = async (words, line) => {
        await editor.caret(words);
        await editor.press('End');
        await editor.press('Enter');
        await editor.type(line);
        await editor.press('Escape');
    };
    const saved = async (button, name) => {
        const file = join(workspace, BOAT, name);
        await view().locator(button).click();
        const input = editor.page.locator('.quick-input-widget:visible .quick-input-box input');
        await until('where to save', async () => (await input.inputValue()).endsWith(`${BOAT}-schematic${name.slice(-4)}`));
        await input.fill(file);
        await editor.press('Enter');
        return until(name, () => { const bytes = readFileSync(file); return bytes.length > 0 && bytes; });
    };
    /** Sets the editor's colours, and tells the least contrast of what is drawn and written on the sheet's ground. */
    const contrast = async (theme, mark) => {
        await editor.focus();
        await editor.press('Control+k');
        await editor.press('Control+t');
        const input = editor.page.locator('.quick-input-widget:visible .quick-input-box input');
        await input.fill(theme);
        await editor.page.locator('.quick-input-list .monaco-list-row.focused').filter({ hasText: theme }).waitFor();
        await editor.press('Enter');
        await input.waitFor({ state: 'hidden' });
        await until(`the theme ${theme}`, () => within((body, wanted) => body.className.split(' ').includes(wanted), mark));
        return within(() => {
            const rgb = (colour) => colour.match(/[\d.]+/g).slice(0, 3).map(Number);
            const light = (colour) => rgb(colour).map((value) => value / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
            const ratio = (a, b) => { const [dark, bright] = [light(a), light(b)].sort((x, y) => x - y); return (bright + 0.05) / (dark + 0.05); };
            const ground = getComputedStyle(document.body).backgroundColor;
            const probe = document.createElementNS('http://www.w3.org/2000/svg', 'path');
            document.querySelector('#paper svg').append(probe);
            const inks = ['line stroke', 'solid fill', 'accent stroke', 'accent-solid fill', 'words fill', 'accent-words fill'].map((ink) => {
                const [name, side] = ink.split(' ');
                probe.setAttribute('class', name);
                return ratio(getComputedStyle(probe)[side], ground);
            });
            probe.setAttribute('class', 'paper');
            const isPaper = getComputedStyle(probe).fill === ground;
            probe.remove();
            return { isPaper, least: Math.min(...inks, ratio(getComputedStyle(document.getElementById('words')).color, ground)) };
        });
    };

    const checkAxe = async (frame, kind) => {
        // It takes all words at a symbol for its label; the label is its tag, and that is asked below.
        const { violations, passes } = await frame.evaluate(() => window.axe.run(document, { resultTypes: ['violations'], rules: { 'label-content-name-mismatch': { enabled: false } } }));
        assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ html }) => html.slice(0, 200)).join(' | ')}`), []);
        const names = await within(() => [...document.querySelectorAll('#paper [data-tag]')].map((tag) => ({ tag: tag.textContent, name: tag.closest('[data-id]').getAttribute('aria-label') })));
        assert.ok(names.length > 10);
        assert.deepEqual(names.filter(({ tag, name }) => !name.includes(tag)), [], kind);
        assert.ok(passes.length > 10);
    };

    step('the drawing opens beside the text', async () => {
        editor = await open(workspace);
        editor.page.on('console', (message) => { if (/content security policy/i.test(message.text())) refusals.push(message.text()); });
        await editor.page.setViewportSize({ width: 1800, height: 1200 });
        await editor.openFile(BOAT, 'lines.orlop');
        await editor.command('Orlop: Show the drawing');
        const begun = Date.now();
        for (const id of ['T1', 'V1', 'F1', 'E1']) await drawn(id);
        console.log(`        from the command to the first drawing: ${Date.now() - begun} ms`);
        await shot('50-drawing');
    });

    step('a part that is typed in is drawn', async () => {
        await typeUnder('hose S1b', 'shutoff V');
        const begun = Date.now();
        await editor.press('9');
        await symbol('V9').waitFor({ state: 'attached' });
        console.log(`        from the key to its drawing: ${Date.now() - begun} ms`);
        assert.match(await view().locator('#words').innerText(), /V9/);
        await told('');
    });

    step('while the text cannot be read the drawing stays, and says so; then it follows again', async () => {
        await typeUnder('shutoff V9', 'shutof V10');
        const line = await lineOf('shutof V10');
        await told(`The drawing is as the text stood before it could not be read: lines.orlop line ${line}.`);
        assert.equal(await symbol('V9').count(), 1);
        assert.equal(await symbol('V10').count(), 0);
        await shot('51-stale');
        await editor.caret('shutof V10', 'shutof'.length);
        await editor.type('f');
        await editor.press('Escape');
        await drawn('V10');
        await told('');
    });

    step('a click on a symbol leads to its line, a line to its symbol', async () => {
        await symbol('F1').click();
        await onLine(await lineOf('filter F1'));
        await framed('F1');
        await editor.caret('lift pump LP1');
        await framed('LP1');
        await editor.caret('bleed BS2');
        await framed('BS2');
    });

    step('the keys go from thing to thing downstream, and Enter to its line', async () => {
        await symbol('V1').focus();
        await editor.press('ArrowRight');
        const focused = await within(() => document.activeElement.getAttribute('data-id'));
        assert.equal(focused, 'S1');
        await shot('52-keys');
        await editor.press('Enter');
        await onLine(await lineOf('hose S1 '));
        await framed('S1');
    });

    step('a thing is found by its tag, and by words of its name', async () => {
        await view().locator('#find').fill('f2');
        await framed('F2');
        await view().locator('#find').fill('bleed point');
        await framed('BS1');
        await editor.press('Enter');
        await framed('BS2');
        assert.match(await view().locator('#found').innerText(), /2 of \d/);
        await view().locator('#find').fill('hugin');
        await until('that there is none', async () => (await view().locator('#found').innerText()) === 'nothing drawn is called so');
        await view().locator('#find').fill('');
    });

    step('what the eye is on stays there over an edit, and while the view is hidden', async () => {
        const whole = (await eye()).width;
        await editor.caret('shutoff V10');
        await framed('V10');
        const { x, y, width, height } = await symbol('V10').boundingBox();
        await editor.page.mouse.move(x + width / 2, y + height / 2);
        await editor.page.keyboard.down('Control');
        for (let i = 0; i < 2; i++) await editor.page.mouse.wheel(0, -50);
        await editor.page.keyboard.up('Control');
        await until('a larger sheet that is scrolled', async () => { const { width: now, scrollLeft } = await eye(); return now > whole * 1.5 && scrollLeft > 0; });
        const near = await symbol('V10').boundingBox();
        assert.ok(Math.abs(near.x + near.width / 2 - x - width / 2) < 20, 'what lies under the pointer stays there');
        const before = await eye();
        await shot('53-zoomed');
        await typeUnder('shutoff V10', 'shutoff V11');
        await drawn('V11');
        await framed('V11');
        const after = await eye();
        // To a pixel: the bars stand at the end of the sheet, whose size is rounded.
        for (const way of ['scrollLeft', 'scrollTop']) assert.ok(Math.abs(after[way] - before[way]) <= 1, `${way} ${before[way]}, then ${after[way]}`);
        // A part more makes the sheet wider; each unit of it is as large as it was.
        assert.ok(after.width >= before.width);
        await editor.page.locator('.tab[aria-label*="Schematic of"]').click();
        await editor.openFile(BOAT, 'boat.orlop');
        await until('the view is hidden', async () => await editor.page.locator('iframe.webview.ready').count() === 0 || !await editor.page.locator('iframe.webview.ready').isVisible());
        await editor.page.locator('.tab[aria-label*="Schematic of"]').click();
        await drawn('V11');
        await until('the same piece of the sheet', async () => assert.deepEqual(await eye(), after) === undefined);
        await view().locator('#sheet').focus();
        await editor.press('0');
        await until('the whole sheet', async () => (await eye()).width < before.width);
    });

    step('a thing is put elsewhere on the sheet, which a file beside the boat keeps, and put back', async () => {
        const file = join(workspace, BOAT, 'schematic.places');
        const down = async () => symbol('E1').evaluate((element) => element.getBBox().y);
        const before = await down();
        await symbol('E1').focus();
        for (let i = 0; i < 6; i++) await editor.press('Alt+ArrowDown');
        const text = await until('the file of places', () => readFileSync(file, 'utf8'));
        assert.match(text, /^E1 down \d+$/m);
        await until('E1 lower on the sheet', async () => Math.abs(await down() - before - 60) < 1);
        await until('how to put it back', async () => /E1 stands where it was put/.test(await view().locator('#put').innerText()));
        await shot('60-moved');
        await editor.press('Delete');
        await until('no file of places', () => !existsSync(file));
        await until('E1 where it was', async () => Math.abs(await down() - before) < 1);
    });

    step('a line-up is chosen, and a procedure is walked', async () => {
        await view().locator('#lineUp').selectOption('SERVICE');
        await until('the line-up on the sheet', async () => /SERVICE/.test(await view().locator('#paper').textContent()));
        const job = await view().locator('#show option').filter({ hasText: /Renew.*F1/ }).first().getAttribute('value');
        await view().locator('#show').selectOption(job);
        const step = view().locator('#step');
        await until('the first step', async () => /^step 1 of \d+$/.test(await step.innerText()));
        await view().locator('#on').click();
        await until('the second step', async () => /^step 2 of /.test(await step.innerText()));
        await view().locator('#sheet').focus();
        await editor.press('PageDown');
        await until('the third step', async () => /^step 3 of /.test(await step.innerText()));
        await until('the step on the sheet', async () => /Step 3 of/i.test(await view().locator('#paper').textContent()));
        await until('what is to be done', async () => (await view().locator('#said').innerText()).length > 20);
        await shot('58-step');
        await view().locator('#show').selectOption('');
        await view().locator('#kind').selectOption('elevation');
        await until('the elevation', async () => /elevation/.test(await view().locator('#paper').textContent()));
        await view().locator('#level').fill('50');
        await view().locator('#heel').fill('20');
        await editor.press('Tab');
        await until('her lean and level', async () => { const told = await view().locator('#paper').textContent(); return /Starboard side down, 20/.test(told) && !/Port side down/.test(told) && /50 % full|half full/i.test(told); });
        await shot('59-elevation');
        await view().locator('#kind').selectOption('schematic');
        await drawn('V11');
    });

    step('the drawing is saved black on white while the editor is dark', async () => {
        await view().locator('#show').selectOption('isolate F1');
        await until('the part that is cut off', async () => await view().locator('#paper .accent').count() > 0);
        const dark = await contrast('Dark Modern', 'vscode-dark');
        await shot('54-dark');
        assert.ok(dark.isPaper && dark.least >= READABLE, JSON.stringify(dark));
        const text = (await saved('#svg', 'saved.svg')).toString('utf8');
        const inks = await within((_, svg) => {
            const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
            const elements = [...root.querySelectorAll('*')];
            return { root: root.localName, ground: root.querySelector('rect')?.getAttribute('fill'), things: root.querySelectorAll('[data-id]').length, inks: [...new Set(elements.flatMap((element) => [element.getAttribute('fill'), element.getAttribute('stroke')]))].filter((ink) => ink !== null) };
        }, text);
        assert.equal(inks.root, 'svg');
        assert.equal(inks.ground, '#fff');
        assert.ok(inks.things > 15);
        assert.deepEqual(inks.inks.filter((ink) => !INKS.includes(ink)), []);
        assert.doesNotMatch(text, /var\(|class="here"|style=/);
        const png = await saved('#png', 'saved.png');
        assert.equal(png.subarray(1, 4).toString(), 'PNG');
        // Width and height stand at 16 and 20 of a PNG (ISO/IEC 15948, from memory); two points for each unit of the sheet.
        const [, width, height] = /<svg[^>]* width="([\d.]+)" height="([\d.]+)"/.exec(text);
        assert.ok(Math.abs(png.readUInt32BE(16) - 2 * Number(width)) <= 2 && Math.abs(png.readUInt32BE(20) - 2 * Number(height)) <= 2, `${png.readUInt32BE(16)} x ${png.readUInt32BE(20)}`);
    });

    step('the drawing can be read in high contrast', async () => {
        for (const [name, theme, mark] of [['55-high-contrast', 'Dark High Contrast', 'vscode-high-contrast'], ['56-high-contrast-light', 'Light High Contrast', 'vscode-high-contrast-light'], ['57-light', 'Light Modern', 'vscode-light']]) {
            const seen = await contrast(theme, mark);
            await shot(name);
            assert.ok(seen.isPaper && seen.least >= READABLE, `${theme}: ${JSON.stringify(seen)}`);
        }
        await view().locator('#show').selectOption('');
    });

    step('the view follows the text to another boat, and comes back with the editor', async () => {
        await view().locator('#lineUp').selectOption('LAID-UP');
        await until('the line-up on the sheet', async () => /LAID-UP/.test(await view().locator('#paper').textContent()));
        await editor.openFile('sedgewake', 'sedgewake.orlop');
        await until('the other boat', async () => (await view().locator('#boat').innerText()) === 'Sedgewake');
        await until('her line-up', async () => (await view().locator('#lineUp').inputValue()) === 'RUN');
        await told('');
        await editor.tab('lines.orlop').click();
        await until('the first boat', async () => (await view().locator('#boat').innerText()) === 'Ottilwake');
        await view().locator('#lineUp').selectOption('SERVICE');
        await editor.focus();
        await editor.save('lines.orlop');
        await editor.caret('shutoff V1 ');
        await framed('V1');
        await view().locator('#sheet').focus();
        await editor.press('+');
        const before = await eye();
        // Not by the browser's own way, which gives the editor no time to keep anything.
        await Promise.all([editor.page.waitForEvent('load'), editor.command('Developer: Reload Window').catch(() => {})]);
        await drawn('V11');
        assert.equal(await view().locator('#lineUp').inputValue(), 'SERVICE');
        await until('the same piece of the sheet', async () => assert.deepEqual(await eye(), before) === undefined);
    });

    step('the view keeps the rules of accessibility, and of its own contents', async () => {
        const handle = await view().locator('body').elementHandle();
        const frame = await handle.ownerFrame();
        await frame.evaluate(AXE);
        for (const kind of ['elevation', 'schematic']) {
            await view().locator('#kind').selectOption(kind);
            await until(`the ${kind}`, async () => (await view().locator('#heading').textContent()).includes(kind));
            await checkAxe(frame, kind);
        }
        assert.deepEqual(refusals, []);
        assert.deepEqual(await editor.notifications(), []);
        assert.deepEqual(editor.errors, []);
    });
}
