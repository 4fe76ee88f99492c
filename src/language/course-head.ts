/** A course says in its head where it begins and ends; here what is missing of that is asked for and put in. */
import type { IToken } from 'chevrotain';
import { ENTRIES, PARTS } from './places';
import { isEnd, isEndOfCourse, isKeyword, isSign, type TokenEditor } from './token-editor';
import { nearest } from './vocabulary';

/** The head of a course behind its word: a name, and `from` and `to` with an end each. */
export function courseHead(editor: TokenEditor): void {
    editor.capital('course', 'text');
    const take = (): void => editor.take();
    const ahead = (): IToken | undefined => editor.ahead();
    if (ahead()?.tokenType.name !== 'TAG') return; // the parser asks for the name
    const name = ahead()!.image;
    take();
    if (ahead()?.tokenType.name === 'STRING') take();
    if (ahead()?.image === 'like') { take(); if (ahead()?.tokenType.name === 'TAG') take(); }
    const end = (word: 'from' | 'to', told: boolean): boolean => {
        let token = ahead();
        const other = word === 'from' ? 'to' : 'from';
        if (token?.tokenType.name === 'WORD' && nearest(token.image, [word])) {
            editor.tell(token, `\`${token.image}\` is not a word that stands here. Did you mean \`${word}\`?`);
            editor.becomes(token, word);
        }
        const lies = token !== undefined && token.image === other && word === 'from' && editor.rest().some(({ image }) => image === 'from');
        if (token?.tokenType.name === word) {
            take();
            const [extra, then] = [ahead(), editor.input[editor.at + 2]];
            if (extra && then?.tokenType.name === 'TAG' && (extra.tokenType.name === 'WORD' || isKeyword(extra)) && (ENTRIES.includes(extra.image) || PARTS.includes(extra.image))) {
                editor.tell(extra, `\`${extra.image}\` is not needed here: write \`${word} ${then.image}\`.`);
                editor.at++;
            }
            editor.capital(word, 'text');
            token = ahead();
        } else {
            const here = token ?? editor.input[editor.at]!;
            const written = isEndOfCourse(token) ? `\`${word} ${token!.image}\`` : undefined;
            if (!told) editor.tell(isEnd(here) ? editor.input[editor.at]! : here, lies
                ? 'A course is read downstream: first `from` and where it begins, then `to` and where it ends.'
                : written !== undefined ? `\`${word}\` is missing: write ${written}.`
                    : word === 'from' ? `\`from\` is missing: say where ${name} begins, like \`from T1\`.` : `\`to\` is missing: say where ${name} ends, like \`to E1\`.`, undefined, true);
            told = true;
            editor.put(word, here);
            if (lies || written === undefined) { editor.put('TAG', here); return told; }
        }
        if (!isEndOfCourse(token)) {
            const here = token ?? editor.input[editor.at]!;
            if (!told) editor.tell(isEnd(here) ? editor.input[editor.at]! : here, word === 'from' ? `From where? Say where ${name} begins, like \`from T1\`.` : `To where? Say where ${name} ends, like \`to E1\`.`, undefined, true);
            editor.put('TAG', here);
            return true;
        }
        take();
        const port = ahead();
        if (word === 'from' && port?.tokenType.name === 'TAG' && editor.rest().slice(1).some(({ image }) => image === 'to')) {
            editor.tell(port, `A port stands behind a point: write \`${token!.image}.${port.image}\`.`);
            editor.put('.', port);
            take();
            return told;
        }
        if (isSign(ahead(), '.')) { take(); if (ahead() && !isEnd(ahead()!) && !isSign(ahead(), '{')) take(); }
        return told;
    };
    end('to', end('from', false));
}
