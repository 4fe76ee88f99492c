/** What stands behind a pump on the supply of what burns fuel, and whether it stands the pressure that the pump makes against a shut line. */
import type { Ground, MissingFact, Verdict } from '../model/finding';
import type { Part } from '../model/boat';
import { isPump } from '../analysis/topology/network';
import { followers, partsBefore } from '../analysis/topology/paths';
import { capital, figure, listed } from '../model/words';
import { fromSI } from '../model/units';
import { burnsFuel, type View } from './check';
import { pushesMissing, standsMissing } from '../analysis/missing';
import { least, most } from '../analysis/estimate';

export interface Behind {
    /** It stands on some such supply. */
    readonly onSupply: boolean;
    /** Pumps that it can run in series with, whichever way the valves are turned. */
    readonly pumps: readonly Part[];
    /** Filters between it and one of these, and filters that come after all of them. */
    readonly between: readonly Part[];
    readonly beyond: readonly Part[];
}

export function behind(view: View, pump: Part): Behind {
    const { boat, network, allOpen } = view;
    const supplies = boat.consumers.map((consumer) => ({ consumer, parts: partsBefore(allOpen, `${consumer.id}:in`) })).filter(({ consumer, parts }) => parts.has(pump.id) && burnsFuel(view, consumer));
    const after = followers(allOpen, pump.id);
    const met = [...new Set(supplies.flatMap(({ parts }) => [...parts]))].flatMap((id) => network.parts.get(id) ?? []).filter((part) => part !== pump && (isPump(part) || part.kind === 'filter') && after.has(network.index.get(`${part.id}:in`)!));
    const pumps = met.filter(isPump);
    const filters = met.filter((part) => !isPump(part));
    const isBetween = (filter: Part): boolean => pumps.some(({ id }) => followers(allOpen, filter.id).has(network.index.get(`${id}:in`)!));
    return { onSupply: supplies.length > 0, pumps, between: filters.filter(isBetween), beyond: filters.filter((filter) => !isBetween(filter)) };
}

interface Words {
    readonly reason: string;
    readonly advice: string;
}

/** Judges the pressure of a pump against what these parts stand. Fails where one of them stands less, though others are not known. */
export function judgePressed(pump: Part, parts: readonly Part[], words: (weak: readonly Part[]) => Words): Verdict {
    const about = pump.id;
    const { pushes } = pump;
    const rests: Ground[] = [{ about, fact: 'pushes' }, ...parts.filter(({ stands }) => stands).map(({ id }) => ({ about: id, fact: 'stands' }))];
    if (pushes) {
        const certain = parts.filter(({ stands }) => stands && least(pushes) > most(stands) + 1e-6);
        const weak = certain.length > 0 ? certain : parts.filter(({ stands }) => stands && most(pushes) > least(stands) + 1e-6);
        if (weak.length > 0) {
            return {
                outcome: 'fail', about, fact: 'pushes', rests, ...(certain.length === 0 && { severity: 'advice' }), ...words(weak),
                message: `${capital(pump.name)} makes up to ${kPa(most(pushes))} against a shut line, and ${listed(weak.map(({ name, stands }) => `${name} stands ${kPa(least(stands!))}`))}${certain.length > 0 ? '' : ': these figures are not exact'}.`,
                see: weak.map(({ id }) => ({ id, why: 'is pressed by it' })),
            };
        }
    }
    const missing: MissingFact[] = [...(pushes ? [] : [pushesMissing(pump)]), ...parts.filter(({ stands }) => !stands).map(standsMissing)];
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

const kPa = (si: number): string => `${figure(fromSI(si, 'kPa'))} kPa`;
