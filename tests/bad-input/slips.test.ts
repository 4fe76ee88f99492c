/** A text spoilt by slips drawn by lot: the terminal and the editor answer it, and the editor never tells of an older text. */
import { describe, expect, it } from 'vitest';
import { loadBoat, type Loaded } from '../../src/language/load';
import { lots } from '../oracle/random-boats';
import { openDesk } from './desk';
import { spoil } from './slips';
import { BOATS } from './texts';

/** Over all boats together; `ORLOP_SLIPS` says how many. */
const SLIPS = Number(process.env['ORLOP_SLIPS'] ?? 500);
/** The editor is asked after every so many, and what it holds compared with a reading from nothing. */
const ASKED = 6;
const COMPARED = 20;

const shown = ({ problems }: Loaded): string[] => problems.map(({ uri, range, message }) => `${uri.slice(uri.lastIndexOf('/') + 1)}:${range.start.line + 1}:${range.start.character + 1} ${message}`);

describe.each([...BOATS])('%s', (_, sound) => {
    it(`is answered for after each of ${Math.ceil(SLIPS / BOATS.size)} slips`, async () => {
        const desk = openDesk();
        const wrong: string[] = [];
        for (let seed = 1; seed <= SLIPS / BOATS.size; seed++) {
            const lot = lots(seed);
            const { texts, file, how } = spoil(sound, lot);
            await desk.type(texts);
            await desk.write(seed);
            if (seed % ASKED === 0) await desk.ask(file, lot);
            const here = desk.wrong.splice(0).map((fault) => `${file}, ${how}, seed ${seed}: ${fault}`);
            wrong.push(...here);
            if (seed % COMPARED !== 0 || here.length > 0) continue;
            const anew = await loadBoat(texts);
            expect(shown(desk.known()), `${file}, ${how}, seed ${seed}`).toEqual(shown(anew));
            expect(desk.known().boat, `${file}, ${how}, seed ${seed}`).toEqual(anew.boat);
        }
        expect(wrong).toEqual([]);
    }, 240_000);
});
