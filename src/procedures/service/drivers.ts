/** How a pump is worked to bleed. */
import type { Part } from '../../model/boat';
import type { Driver } from '../../model/step';

export function driverOf({ id, kind }: Part): Driver | undefined {
    switch (kind) {
        case 'hand primer': return { by: 'hand', part: id };
        case 'lift pump': return { by: 'lever', part: id };
        case 'electric primer': case 'electric pump': return { by: 'electric', part: id };
        default: return undefined;
    }
}
