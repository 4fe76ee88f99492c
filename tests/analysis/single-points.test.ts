/** Single points of failure, against taking every part away in turn and looking whether anything still comes. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { networkOf } from '../../src/analysis/topology/network';
import { running } from '../../src/analysis/topology/paths';
import { sharedPoints, singlePoints } from '../../src/analysis/topology/single-points';
import { arcsOf, boatOf, lineUpOf, plumbing, runsTo, type Plumbing } from './drawn-plumbing';

const DRAWN = plumbing({ kinds: ['hose', 'hose', 'shutoff', 'shutoff', 'check', 'check', 'hand primer', 'pump', 'blocking pump'], selectors: 3, valves: 12, links: [3, 10] });

/** Whether the engine is fed when one part is gone, with all its places. */
function isFed(drawn: Plumbing, engine: string, gone?: string): boolean {
    const arcs = arcsOf(drawn, lineUpOf(drawn), 'running').filter(({ from, to, part }) => gone === undefined || (part !== gone && from !== gone && to !== gone));
    return runsTo(drawn, arcs, drawn.tanks.map(({ id }) => id).filter((id) => id !== gone)).has(`${engine}:in`);
}

function alone(drawn: Plumbing, engine: string): string[] | undefined {
    if (!isFed(drawn, engine)) return undefined;
    const all = [...drawn.tanks.flatMap(({ id, at }) => [id, ...at.map((_, i) => `${id}.P${i}`)]), ...drawn.tees, ...[...drawn.links, ...drawn.selectors, ...drawn.engines].map(({ id }) => id)];
    return all.filter((id) => id !== engine && !isFed(drawn, engine, id)).toSorted();
}

test('300 boats: the same parts as by taking each away', () => {
    const seen = { unfed: 0, anyTank: 0, oneTank: 0, selectors: 0, shared: 0 };
    fc.assert(fc.property(DRAWN, (drawn) => {
        const linedUp = running(networkOf(boatOf(drawn)), lineUpOf(drawn));
        const expected = drawn.engines.map(({ id }) => alone(drawn, id));
        for (const [i, { id }] of drawn.engines.entries()) {
            const found = singlePoints(linedUp, id);
            expect(found && [...found].toSorted()).toEqual(expected[i]);
            if (found === undefined) seen.unfed++; else if (found.some((one) => drawn.tanks.some((tank) => tank.id === one))) seen.oneTank++; else seen.anyTank++;
            if (found?.some((one) => one.startsWith('S'))) seen.selectors++;
        }
        const fed = expected.flatMap((one) => (one === undefined ? [] : [one]));
        const all = sharedPoints(linedUp, drawn.engines.map(({ id }) => id));
        expect([...all].toSorted()).toEqual((fed[0] ?? []).filter((id) => fed.every((one) => one.includes(id))));
        if (fed.length > 1 && all.length > 0) seen.shared++;
    }), { seed: 20261125, numRuns: 300 });
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(5);
});

test('they are told in the direction of flow, whatever the order of declaration', () => {
    fc.assert(fc.property(DRAWN, (drawn) => {
        const answers = [(items: readonly unknown[]) => [...items], (items: readonly unknown[]) => items.toReversed()].map((order) => {
            const linedUp = running(networkOf(boatOf(drawn, order as <T>(items: readonly T[]) => T[])), lineUpOf(drawn));
            return drawn.engines.map(({ id }) => singlePoints(linedUp, id));
        });
        expect(answers[0]).toEqual(answers[1]);
        // Without what comes before it on the list nothing comes to a point, without what comes after it something does.
        for (const [i, { id }] of drawn.engines.entries()) {
            const points = (answers[0]![i] ?? []).filter((one) => drawn.links.some((link) => link.id === one));
            for (const [n, one] of points.entries()) for (const [m, other] of points.entries()) if (n !== m) {
                const arcs = arcsOf(drawn, lineUpOf(drawn), 'running').filter(({ part }) => part !== other);
                const places = runsTo(drawn, arcs, drawn.tanks.map((tank) => tank.id));
                expect(places.has(`${one}:in`) || places.has(`${one}:out`), `${id}: ${other} then ${one}`).toBe(n < m);
            }
        }
    }), { seed: 20261125, numRuns: 300 });
});
