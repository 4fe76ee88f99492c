/** Cautions of a page, as three things: what the hazard is, what comes of it, how it is avoided. */
import type { Boat } from '../../model/boat';
import { hazardWords } from '../../procedures/cautions';
import { execute } from '../../procedures/service/execute';
import type { Executed, Program } from '../../procedures/service/program';
import { cautionAt } from '../../procedures/service/warnings';
import type { Hazard } from './tree';

export { hazardWords };

/** What the table says of each caution of a program, by its place in it; the program is run only when something asks. */
export function hazards(boat: Boat, program: Program, known?: Executed['states']): (index: number) => Hazard | undefined {
    let states = known;
    return (index) => {
        const found = cautionAt(boat, program, index, states ??= execute(boat, program).states);
        return found && { signal: found.signal, hazard: found.hazard, consequence: found.consequence, avoid: found.avoid };
    };
}
