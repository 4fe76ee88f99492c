/** Tanks: what can be looked at from outside, and why the rest is no job for a procedure. */
import type { Job } from '../../../model/boat';
import type { Visit } from '../visit';
import { looked } from './looking';
import { blank } from './pieces';
import type { Recipe } from './recipe';

const isTank = (...verbs: readonly string[]) => ({ boat }: Visit, job: Job): boolean => verbs.includes(job.verb) && boat.tanks.some(({ id }) => id === job.part);

const SIGNS: Readonly<Record<string, readonly string[]>> = {
    vent: ['a gauze that is clear', 'a hose without a sag', 'no fuel at its mouth'],
    'fill cap': ['a ring that is whole', 'a cap that is tight', 'the word on the plate'],
};

export const TANK: readonly Recipe[] = [
    { verb: 'look', fits: isTank('look'), make: (_visit, job) => looked(job, SIGNS[job.piece] ?? ['weeps', 'rust', 'chafed straps']) },
    { verb: 'drain', fits: isTank('drain'), make: (_visit, job) => blank(`Nothing at the bottom of ${job.part!} is written that opens. Water is drawn off its lowest corner by a hand pump with a thin pipe, through an opening in its top, until clean fuel comes; no valve and no line is touched.`) },
    { verb: 'clean', fits: isTank('clean'), make: (_visit, job) => blank(`To clean ${job.part!} it is emptied and opened. That is work for a yard: fumes kill, and a tank is a closed space.`) },
    { verb: 'test', fits: isTank('test'), make: (_visit, job) => blank(`A tank is tested by pressure, with every fitting plugged and a gauge that a yard has. ${job.part!} has no procedure for it here.`) },
    { verb: 'renew', fits: isTank('renew'), make: (_visit, job) => blank(`To renew ${job.part!} is a refit. Write it as one, and the checks tell what changes.`) },
    ...['refit', 'work'].map((verb): Recipe => ({ verb, fits: isTank(verb), make: (_visit, job) => blank(`On ${job.part!} there is nothing to ${verb}.`) })),
];
