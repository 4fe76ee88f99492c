/** What a person asks for at a place, at places spread evenly through all files of a boat. */
import { pathToFileURL } from 'node:url';
import { openTypist } from '../editor/typist';
import { OURS, openFile } from './keystroke';
import type { Row } from './table';

const OPTIONS = { tabSize: 2, insertSpaces: true };
const WARM_UP = 10;

export async function requests(name: string, folder: string, texts: Readonly<Record<string, string>>, samples: number): Promise<Row[]> {
    const typist = await openTypist(OURS, folder);
    for (const file of Object.keys(texts)) await openFile(typist, file);
    const places = spread(texts, samples);
    const rows: Row[] = [];
    for (const [what, method, params] of [
        ['completion', 'completion', {}], ['hover', 'hover', {}], ['rename', 'rename', { newName: 'Zz-9' }], ['formatting', 'formatting', { options: OPTIONS }],
        ['code action', 'codeAction', undefined],
    ] as const) {
        const times: number[] = [];
        for (const [i, { textDocument, position }] of [...places.slice(0, WARM_UP), ...places].entries()) {
            const before = performance.now();
            await typist.ask(`textDocument/${method}`, { textDocument, ...(params ? { position, ...params } : { range: { start: position, end: position }, context: { diagnostics: [] } }) });
            if (i >= WARM_UP) times.push(performance.now() - before);
        }
        rows.push({ what, boat: name, samples: times });
    }
    await typist.close();
    return rows;
}

/** Names of parts in courses: what stands there can be renamed, hovered, and bled after. */
function spread(texts: Readonly<Record<string, string>>, count: number): { textDocument: { uri: string }; position: { line: number; character: number } }[] {
    const all = Object.entries(texts).flatMap(([file, text]) => text.split('\n').flatMap((line, i) => {
        const name = /^ *(?:shutoff|hose|tube|filter|gauge|primer|lift pump|strainer|renew|bleed|pickup|drop) +(?=[A-Z])/.exec(line);
        return name ? [{ textDocument: { uri: pathToFileURL(file).href }, position: { line: i, character: name[0].length + 1 } }] : [];
    }));
    return Array.from({ length: count }, (_, i) => all[Math.floor((i * all.length) / count)]!);
}
