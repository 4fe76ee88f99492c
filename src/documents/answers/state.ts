/** The state in which a question is asked: what was said of it, and what is taken where nothing was. */
import type { Boat, Id } from '../../model/boat';
import { attitudesOf, highLevel, lowLevel, type Condition } from '../../analysis/opening/condition';
import { grossOf } from '../../analysis/tanks/liquid';
import type { Attitude } from '../../analysis/tanks/attitude';
import { lineUpsOf, normalLineUp, runLineUps, type ResolvedLineUp } from '../../analysis/topology/line-ups';
import { figure, listed, litres } from '../../model/words';
import type { Circumstances, Level } from './question';

export interface State {
    readonly lineUp: ResolvedLineUp;
    /** The one that was said, else all for running. */
    readonly runs: readonly ResolvedLineUp[];
    readonly volumes: ReadonlyMap<Id, number>;
    /** One when it was said how she lies, else all in which she must work. */
    readonly attitudes: readonly Attitude[];
    /** Whether it was said how she lies; if not, whether her envelope tells it all. */
    readonly lies: 'as said' | 'within her envelope' | 'not known';
    readonly said: Circumstances;
    /** Whether a level was said for any tank. */
    readonly levelSaid: boolean;
    /** What was taken where nothing was said, by what it is of. */
    readonly taken: readonly { readonly of: Aspect; readonly words: string }[];
}

/**
 * What of her state a question may be answered for. `filled` and `speeds`: a level, a speed, of which the answer tells itself what it took. What nobody said is taken at the end that does most harm, but what is `upright` is asked as she lies in port.
 */
export type Aspect = 'full' | 'low' | 'lean' | 'upright' | 'lineUp' | 'runs' | 'speed' | 'back' | 'elements' | 'filled' | 'speeds';

/** For a question that is asked of tanks at their lowest, or else at their fullest. Undefined without any line-up at all. */
export function stateOf(boat: Boat, said: Circumstances, careful: 'full' | 'low' = 'full'): State | undefined {
    const lineUps = lineUpsOf(boat);
    const lineUp = said.lineUp === undefined ? normalLineUp(boat, lineUps) : lineUps.find(({ id }) => id === said.lineUp);
    if (!lineUp) return undefined;
    const taken: { of: Aspect; words: string }[] = [];
    const running = runLineUps(lineUps);
    const runs = said.lineUp !== undefined || running.length === 0 ? [lineUp] : running;
    const levelSaid = said.level !== undefined || said.levels.size > 0;
    if (said.lineUp === undefined) taken.push({ of: 'lineUp', words: `line-up ${lineUp.id}` });
    if (lineUp.assumedOpen.length > 0) taken.push({ of: 'lineUp', words: `${listed(lineUp.assumedOpen)} open` });
    const volumes = new Map<Id, number>();
    for (const tank of boat.tanks) {
        const level = said.levels.get(tank.id) ?? said.level;
        const gross = grossOf(tank);
        const volume = level === undefined ? gross === undefined ? undefined : (careful === 'low' ? lowLevel(boat) : highLevel(boat)) * gross : volumeOf(level, gross);
        if (volume !== undefined) volumes.set(tank.id, gross === undefined ? volume : Math.min(volume, gross));
    }
    const unsaid = boat.tanks.filter(({ id }) => !said.levels.has(id) && said.level === undefined && volumes.has(id)).map(({ id }) => id);
    const are = unsaid.length > 1 ? 'they are' : 'it is';
    if (unsaid.length > 0) taken.push({ of: 'full', words: `${listed(unsaid)} as full as ${are} ever used, ${figure(highLevel(boat) * 100)} %` });
    if (unsaid.length > 0) taken.push({ of: 'low', words: `${listed(unsaid)} as low as ${are} ever used, ${figure(lowLevel(boat) * 100)} %${levelSaid ? '' : ', or with the pickup just covered where that is higher'}` });
    if (said.speed === undefined) taken.push({ of: 'speed', words: 'every engine at the fastest speed of its curves' }, { of: 'back', words: 'the speed at which most comes back' });
    if (said.lineUp === undefined) taken.push({ of: 'runs', words: `the worst of the line-ups for running: ${listed(runs.map(({ id }) => id))}` });
    const open = [...new Set(runs.flatMap(({ assumedOpen }) => assumedOpen))];
    if (open.length > 0) taken.push({ of: 'runs', words: `${listed(open)} open` });
    if (said.elements === undefined) taken.push({ of: 'elements', words: 'elements that are to be renewed; say `clean` for new ones' });
    if (said.heel === undefined && said.trim === undefined) taken.push({ of: 'upright', words: 'upright' });
    const leans = said.heel !== undefined || said.trim !== undefined;
    const { heel, trim } = boat.vessel.envelope;
    if (!leans && !heel && !trim) taken.push({ of: 'lean', words: 'upright, since no envelope says how she heels' });
    else if (!leans && !(heel && trim)) taken.push({ of: 'lean', words: heel ? 'no trim, since her envelope states none' : 'no heel, since her envelope states none' });
    const lies = leans ? 'as said' : heel && trim ? 'within her envelope' : 'not known';
    return { lineUp, runs, volumes, lies, said, levelSaid, attitudes: leans ? [{ heel: said.heel ?? 0, trim: said.trim ?? 0 }] : attitudesOf(boat), taken };
}

const volumeOf = (level: Level, gross: number | undefined): number | undefined => ('volume' in level ? level.volume : gross === undefined ? undefined : level.share * gross);

export const conditionOf = ({ volumes }: State, attitude: Attitude): Condition => ({ attitude, volumes });

export const levelWords = (boat: Boat, volumes: ReadonlyMap<Id, number>, among: readonly Id[]): string => listed(among.filter((id) => volumes.has(id)).map((id) => {
    const gross = grossOf(boat.tanks.find((tank) => tank.id === id)!);
    const volume = volumes.get(id)!;
    return `${id} at ${litres(volume)}${gross === undefined ? '' : ` (${figure((volume / gross) * 100)} %)`}`;
}));
