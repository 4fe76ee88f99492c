/** In words what a figure of tanks in time lacked. */
import type { TimeLack } from '../analysis/time/lack';
import type { Boat } from '../model/boat';
import type { MissingFact } from '../model/finding';
import { boreMissing, drawsMissing, holdsMissing, lengthMissing, mouthMissing, rateMissing, sizeMissing } from '../analysis/missing';

export function missingInTime(boat: Boat, { about, of }: TimeLack): MissingFact {
    const part = { id: about, name: boat.parts.find(({ id }) => id === about)?.name ?? about };
    const isTank = boat.tanks.some(({ id }) => id === about);
    switch (of) {
        case 'shape': return sizeMissing(about);
        case 'level': return { about, fact: `how much is in ${about}`, how: `sound it, and say \`${about} at 100 L\`` };
        case 'tested': return { about, fact: `the pressure that ${about} was tested at`, how: 'read its plate, and write `tested 25 kPa`' };
        case 'pickup': return { about, fact: isTank ? `how fuel leaves ${about}` : `the tank that feeds ${about}`, how: 'follow the line, and write it as a course that begins at a pickup of the tank' };
        case 'mouth': return mouthMissing(about);
        case 'takes': return { about, fact: `how fast ${about} is filled`, how: 'time the pump on the quay, and write `takes 45 L/min`' };
        case 'burns': return { about, fact: `what ${about} burns at that speed`, how: 'take it from the maker\'s curve, or from the log, and write `burns 2.4 L/h at 2400 rpm`' };
        case 'draws': return drawsMissing({ id: about });
        case 'returns': return { about, fact: `how warm the return of ${about} is`, how: 'hold a thermometer to the return line under load, and to the supply, and write `returns 55 degC at 40 degC`' };
        case 'limit': return { about, fact: `how warm the fuel of ${about} may be`, how: 'take it from the maker\'s book, and write `limits fuel 60 degC`' };
        case 'fuel': return { about, fact: 'how warm the fuel on board is', how: 'take the coldest and the warmest of the year, and write `envelope fuel 5 to 30 degC`' };
        case 'motors': return { about, fact: `the hours under engine of ${about}`, how: 'reckon them, and write `motors 90 h at 2400 rpm`' };
        case 'speed': return { about, fact: `the engine speed on ${about}`, how: 'decide it, and write `motors 90 h at 2400 rpm`' };
        case 'moves': return { about, fact: `how much is to be moved in ${about}`, how: 'decide it, and write `moves 60 L` on the line-up' };
        case 'bore': return boreMissing(part);
        case 'length': return lengthMissing(part, 'its two ends');
        case 'holds': return holdsMissing(part);
        case 'rate': return rateMissing(part);
        case 'line': return { about, fact: isTank ? `the line by which ${about} is vented or joined, as one row of pipes` : `the line of ${about}`, how: 'follow it, and write its hoses with bore and length into a course' };
    }
}
