/** Puts texts on the disk. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

export function written(folder: string, texts: Readonly<Record<string, string>>): string {
    for (const [name, text] of Object.entries(texts)) {
        mkdirSync(dirname(join(folder, name)), { recursive: true });
        writeFileSync(join(folder, name), text);
    }
    return folder;
}
