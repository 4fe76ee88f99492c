/** The editor as a user sees it: starts it in a browser, and puts names to its keys and panels. */
import { spawn } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { chromium } from 'playwright-core';

/** Asks again until the answer is truthy. The time is long because a busy machine is no failure. */
export async function until(what, ask, timeout = 40_000) {
    const end = Date.now() + timeout;
    for (let last; ;) {
        try {
            last = await ask();
            if (last) return last;
        } catch (error) {
            last = error;
        }
        if (Date.now() > end) throw new Error(`waited ${timeout / 1000} s for: ${what}; last seen: ${last instanceof Error ? last.message : JSON.stringify(last)}`);
        await sleep(100);
    }
}

const freePort = () => new Promise((resolve, reject) => {
    const server = createServer().once('error', reject).listen(0, '127.0.0.1', () => {
        const { port } = server.address();
        server.close(() => resolve(port));
    });
});

/** How long something must be gone to count as gone, ms. */
const SETTLED = 1500;

/** Nothing that pops up, asks, or changes a text by itself. */
const SETTINGS = {
    'workbench.startupEditor': 'none', 'workbench.tips.enabled': false, 'workbench.enableExperiments': false, 'workbench.colorTheme': 'Default Light Modern',
    'security.workspace.trust.enabled': false, 'telemetry.telemetryLevel': 'off', 'update.mode': 'none', 'extensions.autoUpdate': false,
    'extensions.autoCheckUpdates': false, 'extensions.ignoreRecommendations': true, 'git.enabled': false, 'files.autoSave': 'off',
    'workbench.panel.defaultLocation': 'right', 'editor.minimap.enabled': false, 'editor.accessibilitySupport': 'off', 'window.commandCenter': false, 'chat.commandCenter.enabled': false,
    // One row on the screen is one line of the text: the page object counts rows.
    '[orlop]': { 'editor.wordWrap': 'off' },
};

/** The editor's server with everything of its own under `root`, and with one extension. */
export async function startServer({ program, root, vsix }) {
    const under = (...names) => join(root, ...names);
    for (const folder of ['home', 'data/User', 'server', 'extensions']) mkdirSync(under(folder), { recursive: true });
    writeFileSync(under('data/User/settings.json'), JSON.stringify(SETTINGS));
    const env = { PATH: process.env.PATH, HOME: under('home'), LANG: 'C.UTF-8', EXTENSIONS_GALLERY: '{"serviceUrl":"","itemUrl":"","resourceUrlTemplate":""}' };
    const log = openSync(under('server.log'), 'a');
    const folders = ['--user-data-dir', under('data'), '--server-data-dir', under('server'), '--extensions-dir', under('extensions')];
    // A process group of its own, so that the extension and its language server end with it.
    const run = (...more) => spawn(process.execPath, [program, ...folders, '--telemetry-level', 'off', ...more], { env, detached: true, stdio: ['ignore', log, log] });
    const ended = (child) => new Promise((resolve) => child.once('exit', (code) => resolve(code ?? -1)));
    const told = () => readFileSync(under('server.log'), 'utf8').slice(-3000);

    if (await ended(run('--install-extension', vsix, '--force')) !== 0) throw new Error(`the extension cannot be installed\n${told()}`);
    const port = await freePort();
    const child = run('--host', '127.0.0.1', '--port', String(port), '--without-connection-token', '--accept-server-license-terms', '--disable-workspace-trust');
    const gone = ended(child);
    const url = `http://127.0.0.1:${port}`;
    const stop = async () => {
        const signal = (name) => { try { process.kill(-child.pid, name); } catch { /* the group has ended */ } };
        signal('SIGTERM');
        await Promise.race([gone, sleep(3000)]);
        signal('SIGKILL');
        closeSync(log);
    };
    try {
        await Promise.race([
            until('the editor\'s server', async () => (await fetch(`${url}/version`)).ok),
            gone.then((code) => { throw new Error(`the editor's server ended with ${code}`); }),
        ]);
    } catch (error) {
        await stop();
        throw new Error(`${error.message}\n${told()}`);
    }
    return { url, stop };
}

export const launchBrowser = () => chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

/** Blanks in the editor are no-break spaces. */
const plain = (text) => text.replace(/\u00a0/g, ' ');

export class Workbench {
    /** What the editor's own page threw. */
    errors = [];

    constructor(page) {
        this.page = page;
        page.on('pageerror', (error) => this.errors.push(String(error)));
    }

    /** Tall enough to show a whole boat, with the problems beside it: lines out of sight are not in the page. */
    static async open(browser, url, folder) {
        const page = await browser.newPage({ viewport: { width: 1800, height: 2200 }, locale: 'en-US' });
        const workbench = new Workbench(page);
        await page.goto(`${url}/?folder=${encodeURIComponent(folder)}`);
        await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 90_000 });
        return workbench;
    }

    press(keys) {
        return this.page.keyboard.press(keys);
    }
    type(text) {
        return this.page.keyboard.type(text, { delay: 15 });
    }

    /** Runs a command by its name. */
    async command(name) {
        const input = this.page.locator('.quick-input-widget:visible .quick-input-box input');
        await this.focus();
        await this.press('F1');
        await input.waitFor();
        await input.fill(`>${name}`);
        await this.page.locator('.quick-input-list .monaco-list-row.focused').filter({ hasText: name }).waitFor();
        await this.press('Enter');
        await input.waitFor({ state: 'hidden' });
    }

    // ---- files

    row(name) {
        return this.page.locator('.explorer-folders-view .monaco-list-row').filter({ has: this.page.getByText(name, { exact: true }) }).first();
    }
    tab(file) {
        return this.page.locator(`.tabs-container .tab[data-resource-name="${file}"]`);
    }
    /** Opens a file, by a click on its folder first when that is shut. */
    async openFile(folder, file) {
        if (!await this.row(file).isVisible()) await this.row(folder).click();
        await this.row(file).dblclick();
        await this.page.locator(`.tabs-container .tab.active[data-resource-name="${file}"]`).waitFor();
        await until(`the text of ${file}`, () => this.text());
    }
    /** Waits until the editor itself knows that the file is saved: the bytes are on disk a little before. */
    async save(file) {
        await this.press('Control+s');
        await this.page.locator(`.tabs-container .tab[data-resource-name="${file}"]:not(.dirty)`).waitFor();
    }

    // ---- the text

    get editor() {
        return this.page.locator('.editor-instance .monaco-editor').first();
    }
    /** The lines in sight, each with its number. */
    async lines() {
        // By the number in the margin: figures over courses and engines take lines of their own, which have none.
        const found = await this.editor.first().evaluate((element) => {
            const numbers = new Map([...element.querySelectorAll('.margin-view-overlays > div')].map((row) => [row.style.top, Number(row.querySelector('.line-numbers')?.textContent)]));
            return [...element.querySelectorAll('.view-lines .view-line')].map((line) => ({ number: numbers.get(line.style.top) ?? NaN, text: line.textContent }));
        });
        return found.filter(({ number }) => number > 0).map(({ number, text }) => ({ number, text: plain(text) })).sort((a, b) => a.number - b.number);
    }
    async text() {
        return (await this.lines()).map((line) => line.text).join('\n');
    }
    /** Puts the cursor at the first place where `text` stands, `after` characters on. */
    async caret(text, after = 0) {
        return until(`the cursor at \`${text}\``, async () => {
            const line = (await this.lines()).find((other) => other.text.includes(text));
            if (line === undefined) throw new Error('it is not in the editor');
            await this.goto(line.number, line.text.indexOf(text) + 1 + after);
            // Right after a change the margin may still number the lines as they were.
            if (!(await this.lines()).find((other) => other.number === line.number)?.text.includes(text)) throw new Error(`line ${line.number} is another one now`);
            return line.number;
        });
    }
    async goto(line, column) {
        const input = this.page.locator('.quick-input-widget:visible .quick-input-box input');
        await this.focus();
        await this.press('Control+g');
        await input.waitFor();
        await input.fill(`:${line}:${column}`);
        await this.press('Enter');
        await input.waitFor({ state: 'hidden' });
        await until(`the cursor at ${line}:${column}`, async () => (await this.position()) === `${line}:${column}`);
    }
    /** The text takes the keys. */
    async focus() {
        const area = this.editor.locator('textarea.inputarea, .native-edit-context').first();
        await until('the editor takes the keys', async () => { await area.focus(); return area.evaluate((element) => element === document.activeElement); });
    }
    /** Line and column as the status bar tells them. */
    async position() {
        const said = await this.page.locator('.part.statusbar [id="status.editor.selection"]').innerText();
        return /Ln (\d+), Col (\d+)/.exec(said)?.slice(1).join(':');
    }
    /** The class and colour in which a piece of a line is set. */
    async face(piece, line) {
        const row = this.editor.locator('.view-line').filter({ hasText: line }).first();
        return row.locator('span > span').filter({ hasText: piece }).first().evaluate((element) => ({ class: element.className, colour: getComputedStyle(element).color }));
    }
    /** How many underlines of errors are in sight. */
    squiggles() {
        return this.editor.locator('.squiggly-error').count();
    }

    // ---- what the language says

    /** The problems panel as it reads: one text for each row. */
    async problems() {
        const panel = this.page.locator('.markers-panel');
        if (!await panel.isVisible()) {
            await this.press('Control+Shift+M');
            await panel.waitFor();
        }
        return (await panel.locator('.monaco-list-row').allInnerTexts()).map((row) => plain(row).replace(/\s+/g, ' '));
    }
    problem(...words) {
        return until(`a problem with ${words.join(', ')}`, async () => (await this.problems()).find((row) => words.every((word) => row.includes(word))));
    }
    /** Gone, and stays gone: right after a change the panel still tells of the text before it. */
    noProblem(...words) {
        let since;
        return until(`no problem with ${words.join(', ')}`, async () => {
            const found = (await this.problems()).find((row) => words.every((word) => row.includes(word)));
            since = found === undefined ? since ?? Date.now() : undefined;
            if (found !== undefined) throw new Error(found);
            return Date.now() - since > SETTLED;
        });
    }
    /** The list that Ctrl+. opens at the cursor, once it has the action; what else is in it is returned. */
    async actions(title) {
        const rows = this.page.locator('.action-widget .monaco-list-row.action');
        return until(`the code action "${title}"`, async () => {
            if (!await rows.first().isVisible()) {
                await this.press('Control+.');
                await rows.first().waitFor({ timeout: 3000 });
            }
            const found = (await rows.allInnerTexts()).map(plain);
            if (found.some((row) => row.includes(title))) return found;
            await this.press('Escape');
            throw new Error(`the list has ${found.join(' | ')}`);
        });
    }
    /** By the keys: until the mouse moves, an unseen layer over the list takes the clicks. */
    async act(title) {
        await this.actions(title);
        const row = this.page.locator('.action-widget .monaco-list-row.action').filter({ hasText: title }).first();
        await until(`"${title}" is chosen`, async () => await row.evaluate((element) => element.classList.contains('focused')) || void await this.press('ArrowDown'));
        await this.press('Enter');
        await row.waitFor({ state: 'hidden' });
    }
    /** What hovers over the cursor, once it tells all of these; findings are there sooner than the figures. */
    hover(...words) {
        const box = this.page.locator('.monaco-hover:not(.hidden) .monaco-hover-content').first();
        return until(`a hover with ${words.join(', ')}`, async () => {
            if (!await box.isVisible()) {
                await this.press('Control+k');
                await this.press('Control+i');
                await box.waitFor({ timeout: 3000 });
            }
            const told = plain(await box.innerText());
            if (words.every((word) => told.includes(word))) return told;
            throw new Error(told);
        });
    }
    /** The names on the list that Ctrl+Space opens. */
    async completions() {
        const rows = this.page.locator('.suggest-widget.visible .monaco-list-row');
        await until('suggestions', async () => {
            if (await rows.count() > 0) return true;
            await this.press('Control+Space');
            await rows.first().waitFor({ timeout: 3000 });
            return true;
        });
        return rows.locator('.label-name').allInnerTexts();
    }
    async rename(to) {
        const input = this.page.locator('.rename-box input.rename-input');
        await until('the rename box', async () => {
            await this.press('F2');
            await input.waitFor({ timeout: 3000 });
            return true;
        });
        await input.fill(to);
        await this.press('Enter');
        await input.waitFor({ state: 'hidden' });
    }
    async notifications() {
        return (await this.page.locator('.notification-toast').allInnerTexts()).map(plain);
    }
}
