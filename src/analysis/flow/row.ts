/** The pipes among the parts that liquid passes one after the other. What is no pipe counts for nothing. */
import type { Id } from '../../model/boat';
import { fittingOf } from '../topology/joints';
import type { Network } from '../topology/network';
import type { Pipe } from './pipe';

export interface Row {
    readonly pipes: readonly Pipe[];
    /** Hoses and tubes whose bore or length is not known. */
    readonly lacks: readonly { readonly about: Id; readonly of: 'bore' | 'length' }[];
}

/** Of hoses and tubes; and of pipes that reach down into a tank, where their bore and both their ends are known. */
export function rowOf(network: Network, parts: readonly Id[]): Row {
    const pipes: Pipe[] = [];
    const lacks: { about: Id; of: 'bore' | 'length' }[] = [];
    for (const id of parts) {
        const part = network.parts.get(id);
        if (part?.kind === 'hose' || part?.kind === 'tube') {
            if (part.bore && part.length) pipes.push({ bore: part.bore.si, length: part.length.si });
            if (!part.bore) lacks.push({ about: id, of: 'bore' });
            if (!part.length) lacks.push({ about: id, of: 'length' });
            continue;
        }
        const fitting = fittingOf(network.boat, id);
        const [top, mouth] = [fitting?.top?.up?.si, fitting?.mouth?.up?.si];
        if (fitting?.bore && top !== undefined && mouth !== undefined) pipes.push({ bore: fitting.bore.si, length: Math.abs(top - mouth) });
    }
    return { pipes, lacks };
}
