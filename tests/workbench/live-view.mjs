/** The drawing beside the text, as its reader uses it. The steps build on one another, in an editor window of their own. */
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { until } from './workbench.mjs';

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const BOAT = 'ottilwake';

/** `open` opens a folder in a window; `shot` takes a picture of it. */
export function liveView({ step, repo, root, shots, open }) {
    const workspace = join(root, 'drawn');
    const saved = join(workspace, BOAT, 'saved.svg');
    mkdirSync(workspace, { recursive: true });
    cpSync(join(repo, 'examples', BOAT), join(workspace, BOAT), { recursive: true });

    /** @type {import('./workbench.mjs').Workbench} */
    let editor;
    const refusals = [];
    const view = () => editor.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    const frame = async () => (await view().locator('body').elementHandle()).ownerFrame();
    const symbol = (id) => view().locator(`#paper [data-id="${id}"]`);
    const told = () => view().locator('#told').innerText();
    const shot = (name) => editor.page.screenshot({ path: join(shots, `${name}.png`) });
    const drawn = (id) => until(`${id} in the drawing`, async () => await symbol(id).count() === 1);
    const width = async () => (await view().locator('#paper').boundingBox()).width;

    step('the drawing opens beside the text', async () => {
        editor = await open(workspace);
        editor.page.on('console', (message) => { if (/Content Security Policy|violates the following/.test(message.text())) refusals.push(message.text()); });
        await editor.page.setViewportSize({ width: 1800, height: 1100 });
        await editor.openFile(BOAT, 'lines.orlop');
        await editor.command('Orlop: Show the drawing');
        for (const id of ['T1', 'V1', 'F1', 'E1']) await drawn(id);
        await shot('50-drawing');
    });
    return { refusals, drawn, told, width, frame, saved, AXE, assert, existsSync, readFileSync, dirname };
}
