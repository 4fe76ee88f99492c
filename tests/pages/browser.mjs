/**
 * Pages as they are read: on a narrow screen, in the dark, on paper, by keyboard, without scripts. Each question returns what is
 * wrong in words, none if nothing is.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { launchBrowser } from '../workbench/workbench.mjs';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** CSS pixels: 96 an inch. A telephone held upright, and a screen. */
const NARROW = { width: 360, height: 740 };
const WIDE = { width: 1000, height: 1000 };
/** A4 is 210 x 297 mm; so much of it is left by margins of 20 mm, more than a page should take. */
const A4 = { width: Math.floor(170 / 25.4 * 96), height: Math.floor(257 / 25.4 * 96) };

const SCREEN = { media: 'screen', colorScheme: 'light' };
const DARK = { media: 'screen', colorScheme: 'dark' };
/** Somebody prints from a dark screen. */
const PAPER = { media: 'print', colorScheme: 'dark' };

const ALL = { rules: { 'target-size': { enabled: true } } };
const LOOKS = [
    ['light, 360 px', SCREEN, NARROW, ALL], ['dark, 360 px', DARK, NARROW, ALL], ['light, 1000 px', SCREEN, WIDE, ALL], ['dark, 1000 px', DARK, WIDE, ALL],
    ['on paper', PAPER, A4, { runOnly: ['color-contrast'] }],
];

/** What stands wider than its place, and words torn in two. Something that scrolls by itself may do so on a screen; paper does not scroll. */
function wide(paper) {
    const found = [];
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth) found.push(`the page is ${root.scrollWidth} px wide on ${root.clientWidth} px`);
    for (const element of document.body.querySelectorAll('*')) {
        const style = getComputedStyle(element);
        // Inside a drawing nothing flows: that it has room is asked of the whole.
        if (element.ownerSVGElement) continue;
        // An element of one pixel is there for readers aloud.
        if (element.clientWidth <= 1 || style.display === 'inline' || element.scrollWidth <= element.clientWidth) continue;
        if (!paper && /auto|scroll/.test(style.overflowX)) continue;
        found.push(`<${element.localName} class="${element.className}"> is ${element.scrollWidth} px wide on ${element.clientWidth} px: ${element.textContent.trim().slice(0, 60)}`);
    }
    // A name without end may be broken, a word may not: `op` over `en` is no position of a valve.
    const range = document.createRange();
    for (const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT); walker.nextNode();) {
        const { data, parentElement } = walker.currentNode;
        if (['SCRIPT', 'STYLE', 'NOSCRIPT'].includes(parentElement.nodeName)) continue;
        for (const { index, 0: word } of data.matchAll(/(?<![^\s(])[\p{L}\p{N}]{2,12}(?![^\s.,;:)])/gu)) {
            range.setStart(walker.currentNode, index);
            range.setEnd(walker.currentNode, index + word.length);
            const rects = [...range.getClientRects()];
            if (rects.some(({ top }) => top > rects[0].top + 4)) found.push(`\`${word}\` is torn in two in <${parentElement.localName} class="${parentElement.className}">`);
        }
    }
    return found.slice(0, 5);
}

/** The names of the elements in order, without words; what only tells where a line may break or which way it runs does not count, nor how a drawing is drawn. */
const outline = (root) => [...root.querySelectorAll('*')].filter(({ ownerSVGElement }) => !ownerSVGElement).map(({ localName }) => localName).filter((name) => !['wbr', 'bdi', 'script', 'style'].includes(name));

/** A tab that notes what its page does unasked. */
class Tab {
    found = [];
    url = '';

    static async open(context) {
        const tab = new Tab();
        tab.page = await context.newPage();
        tab.page.on('console', (message) => { if (['error', 'warning'].includes(message.type())) tab.found.push(`console: ${message.text()}`); });
        tab.page.on('pageerror', (error) => tab.found.push(`script: ${error}`));
        tab.page.on('request', (request) => { if (request.url() !== tab.url) tab.found.push(`a request to ${request.url().slice(0, 100)}`); });
        tab.page.on('popup', () => tab.found.push('it opens a window'));
        tab.page.on('dialog', (dialog) => { tab.found.push(`a dialog: ${dialog.message()}`); return dialog.dismiss(); });
        return tab;
    }
}

export class Browser {
    /** Tabs that wait for their next page. */
    idle = [];

    static async start() {
        const browser = new Browser();
        browser.chromium = await launchBrowser();
        browser.context = await browser.chromium.newContext({ viewport: NARROW, offline: true });
        return browser;
    }

    stop() {
        return this.chromium.close();
    }

    /** A page is opened and used; what it did on the way that it should not is told too. */
    async with(file, use, context = this.context) {
        const url = pathToFileURL(file).href;
        const tab = context === this.context && this.idle.pop() || await Tab.open(context);
        const found = tab.found = [];
        tab.url = url;
        try {
            await tab.page.goto(url);
            found.push(...await use(tab.page) ?? []);
            // Whatever is smuggled in by a name sets this.
            if (await tab.page.evaluate('"seized" in globalThis')) found.push('a name ran as a script');
        } finally {
            await tab.page.setViewportSize(NARROW);
            await tab.page.emulateMedia(SCREEN);
            if (context === this.context) this.idle.push(tab);
        }
        return [...new Set(found)];
    }

    /** Opened, at the width of a telephone and of a sheet of paper. */
    fits(file) {
        return this.with(file, async (page) => {
            const narrow = await page.evaluate(wide, false);
            await page.setViewportSize(A4);
            await page.emulateMedia(PAPER);
            return [...narrow.map((words) => `at 360 px ${words}`), ...(await page.evaluate(wide, true)).map((words) => `on A4 ${words}`)];
        });
    }

    /** By the rules of axe-core: light and dark, narrow and wide; and on paper whether the print is dark enough. Of these looks all, or one. */
    accessible(file, only) {
        return this.with(file, async (page) => {
            const found = [];
            await page.evaluate(AXE);
            for (const [what, media, size, options] of only === undefined ? LOOKS : [LOOKS[only % LOOKS.length]]) {
                await page.emulateMedia(media);
                await page.setViewportSize(size);
                const { violations } = await page.evaluate((how) => globalThis.axe.run(document, how), { resultTypes: ['violations'], ...options });
                for (const { id, nodes } of violations) found.push(`${what}: ${id}: ${nodes[0].target} ${nodes[0].failureSummary.replace(/\s+/g, ' ')}`);
            }
            return found;
        });
    }

    /** The boxes to tick: one for each step at least, each with words, and all reached by the Tab key, in order, where one sees it. */
    keyboard(file) {
        return this.with(file, async (page) => {
            const found = [];
            const boxes = await page.locator('input[type=checkbox]').count();
            const steps = await page.locator('li:has(input[type=checkbox]), tr:has(input[type=checkbox])').count();
            if (boxes === 0) return ['there is no box to tick'];
            if (steps === 0) found.push('the boxes stand in no list');
            const reached = [];
            for (let presses = 0; reached.length < boxes && presses < boxes * 3 + 50; presses++) {
                await page.keyboard.press('Tab');
                const at = await page.evaluate(() => {
                    const element = document.activeElement;
                    if (element?.type !== 'checkbox') return undefined;
                    const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
                    const { top, bottom } = element.getBoundingClientRect();
                    return {
                        index: [...document.querySelectorAll('input[type=checkbox]')].indexOf(element), words: element.labels[0]?.textContent.trim() ?? '',
                        ringed: outlineStyle !== 'none' && outlineWidth !== '0px' || boxShadow !== 'none', seen: top >= 0 && bottom <= innerHeight,
                    };
                });
                if (at === undefined) continue;
                if (reached.includes(at.index)) break;
                reached.push(at.index);
                if (at.words === '') found.push(`box ${at.index + 1} has no words`);
                if (!at.ringed) found.push(`box ${at.index + 1} does not show that it is the one`);
                if (!at.seen) found.push(`box ${at.index + 1} is reached out of sight`);
            }
            if (reached.some((index, i) => index !== i) || reached.length !== boxes) found.push(`of ${boxes} boxes the Tab key reaches ${reached.map((index) => index + 1)}`);
            if (reached.length > 0) {
                const last = page.locator('input[type=checkbox]').nth(reached.at(-1));
                await last.press('Space');
                if (!await last.isChecked()) found.push('a box is not ticked by the space bar');
                await last.press('Space');
            }
            return found;
        });
    }

    /** Ticks the boxes with these places, from 0. */
    tick(file, places) {
        return this.with(file, async (page) => {
            for (const place of places) await page.locator('input[type=checkbox]').nth(place).check();
        });
    }

    /** The places of the boxes that are found ticked. */
    async ticked(file) {
        let places = [];
        await this.with(file, async (page) => {
            places = await page.evaluate(() => [...document.querySelectorAll('input[type=checkbox]')].flatMap((box, i) => box.checked ? [i] : []));
        });
        return places;
    }

    /** A page that was used before says so, and is cleared by one press; a page that was not says nothing. */
    cleared(file) {
        return this.with(file, async (page) => {
            const told = page.locator('#kept');
            if (!await told.isVisible()) return ['it does not say that ticks of an earlier time are shown'];
            await told.locator('button').click();
            const left = await page.locator('input:checked').count();
            await page.reload();
            const stay = await page.locator('input:checked').count();
            return [...(left + stay > 0 ? [`${left} ticks are left, ${stay} come back`] : []), ...(await told.isVisible() ? ['it says that ticks are shown, and none are'] : [])];
        });
    }

    /** Nothing of what is to be read needs a script. */
    async scriptless(file) {
        const lines = (page) => page.evaluate(() => document.body.innerText.split('\n').map((line) => line.trim()).filter((line) => line !== ''));
        const context = await this.chromium.newContext({ viewport: NARROW, offline: true, javaScriptEnabled: false });
        let without = [];
        const found = await this.with(file, async (page) => { without = await lines(page); }, context);
        await context.close();
        return [...found, ...await this.with(file, async (page) => (await lines(page)).filter((line) => !without.includes(line)).map((line) => `only with scripts: ${line}`))];
    }

    /** Printed on A4, black on white: no more sheets than its length asks for. */
    print(file, pdf) {
        return this.with(file, async (page) => {
            await page.emulateMedia(PAPER);
            await page.setViewportSize(A4);
            const { height, background, torn } = await page.evaluate(() => ({
                height: document.documentElement.scrollHeight,
                background: [document.documentElement, document.body].map((element) => getComputedStyle(element).backgroundColor).find((colour) => colour !== 'rgba(0, 0, 0, 0)') ?? 'rgb(255, 255, 255)',
                torn: [...document.querySelectorAll('li:has(input[type=checkbox])')].filter((element) => !/avoid/.test(getComputedStyle(element).breakInside)).length,
            }));
            const printed = await page.pdf({ format: 'A4', preferCSSPageSize: true, ...(pdf && { path: pdf }) });
            const sheets = printed.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
            // What is kept together may leave up to half of each sheet empty.
            const most = Math.ceil(height / (A4.height / 2));
            return [
                ...(sheets < 1 || sheets > most ? [`${sheets} sheets for ${height} px`] : []),
                ...(background !== 'rgb(255, 255, 255)' ? [`the paper is ${background}`] : []),
                ...(torn > 0 ? [`${torn} steps may be torn between two sheets`] : []),
            ];
        });
    }

    /** Names of elements and words of a text in HTML or XML, as a browser takes them. */
    async parsed(texts, type) {
        const page = await this.context.newPage();
        const read = await page.evaluate(([all, kind, outlined]) => all.map((text) => {
            const parsed = new DOMParser().parseFromString(text.replace(/<!DOCTYPE[^>]*>/, ''), kind);
            const elements = (0, eval)(outlined)(parsed);
            for (const element of parsed.querySelectorAll('script, style')) element.remove();
            return { elements, words: parsed.documentElement.textContent };
        }), [texts, type, outline.toString()]);
        await page.close();
        return read;
    }

    /** Pictures of a page, for whoever wants to see it. */
    async pictures(file, stem) {
        for (const [what, media, size] of [['360', SCREEN, NARROW], ['360-dark', DARK, NARROW], ['1000', SCREEN, WIDE], ['A4', PAPER, A4]]) await this.with(file, async (page) => {
            await page.emulateMedia(media);
            await page.setViewportSize(size);
            await page.screenshot({ path: `${stem}-${what}.png`, fullPage: true });
        });
    }
}
