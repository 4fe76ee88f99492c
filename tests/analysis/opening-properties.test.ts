/** Laws of openings on boats drawn by lot, and what comes against every way tried one by one on the drawing. */
import { describe, expect, test } from 'vitest';
import { open, type Opened } from '../../src/analysis/opening/open';
import { openingsOf } from '../../src/analysis/opening/openings';
import { plumbing } from '../../src/analysis/opening/plumbing';
import { severed } from '../../src/analysis/opening/severed';
import { thresholds } from '../../src/analysis/opening/thresholds';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { networkOf } from '../../src/analysis/topology/network';
import type { Boat } from '../../src/model/boat';
import { answer } from '../../src/documents/answers/answers';
import { load } from '../checks/boats';
import { comingTo, drawBoat, filtersOf, mirrored, textOf, type Drawn, type DrawnTank } from './boats-with-heights';
import { drained, heightAt, type Point } from './drain-down-by-steps';

const BOATS = Array.from({ length: 30 }, (_, seed) => drawBoat(seed));
const LEANS: readonly (readonly [number, number])[] = [[0, 0], [-18, 0], [18, 0], [12, -4], [-25, 3]];
/** The heaviest fuel of EN 590, 845 kg/m³, at 8 °C: tests/analysis/flow/fuel.test.ts. */
const HELD = 849.943 * 9.80665;

interface State { heel: number; trim: number; level: number; worn: boolean }

const gross = ({ size: [a, b, c] }: DrawnTank): number => a * b * c / 1e6;

function at(boat: Boat, drawn: Drawn, { heel, trim, level, worn }: State): Map<string, Opened> {
    const under = plumbing(networkOf(boat), lineUpsOf(boat)[0]!.positions, worn ? 'leaky' : 'tight');
    const condition = { attitude: { heel: heel * Math.PI / 180 + 0, trim: trim * Math.PI / 180 }, volumes: new Map(drawn.tanks.map((tank) => [tank.name, level * gross(tank) / 1e3])) };
    return new Map([...openingsOf(boat)].flatMap(([part, openings]) => openings.map((opening) => [`${part} ${opening.name}`, open(under, opening, condition)] as const)));
}
const boatOf = async (drawn: Drawn, order?: 'turned round'): Promise<Boat> => (await load(textOf(drawn, order))).boat;
const states = (worn: boolean): State[] => LEANS.flatMap(([heel, trim]) => [0.1, 0.5, 0.95].map((level) => ({ heel, trim, level, worn })));
/** Litres, and nothing where nothing floods. */
const litres = ({ volume }: Opened): number => (volume ?? 0) * 1e3;
const flooding = (found: ReadonlyMap<string, Opened>): string[] => [...found].filter(([, { outcome }]) => outcome === 'floods').map(([name]) => name);
const same = (one: Opened, other: Opened): void => {
    expect(other.outcome).toBe(one.outcome);
    expect(litres(other)).toBeCloseTo(litres(one), 6);
    expect([...other.falls.parts].sort()).toEqual([...one.falls.parts].sort());
    expect([...other.hangs.parts].sort()).toEqual([...one.hangs.parts].sort());
    for (const { tank, head, outcome, fitting } of one.tanks) {
        const twin = other.tanks.find((found) => found.tank === tank)!;
        expect([twin.outcome, twin.fitting]).toEqual([outcome, fitting]);
        if (head !== undefined) expect(twin.head).toBeCloseTo(head, 9);
    }
};

test('against every way tried one by one: whether a lid floods, by how much, and how much comes', async () => {
    const met: Record<string, number> = {};
    for (const [seed, drawn] of BOATS.entries()) {
        const boat = await boatOf(drawn);
        for (const state of [...states(false), ...states(true)].filter((_, i) => i % 6 === seed % 6)) {
            const { heel, trim, level } = state;
            const found = at(boat, drawn, state);
            for (const filter of filtersOf(drawn)) {
                const lid: Point = [filter.lid!.fwd, filter.lid!.stbd, filter.lid!.up];
                const height = heightAt(lid, heel, trim);
                const heads = comingTo(drawn, filter.name, state.worn).map((way) => {
                    const tank = drawn.tanks.find(({ name }) => name === way.tank)!;
                    const fitting = tank.fittings.find(({ port }) => way.fitting === `${tank.name}.${port}`)!;
                    const corner = tank.corner!;
                    const mouth: Point = [fitting.top!.fwd, fitting.top!.stbd, corner.up + fitting.mouth!];
                    const box = { at: [corner.fwd, corner.stbd < 0 ? corner.stbd - tank.size[1] : corner.stbd, corner.up] as Point, size: tank.size };
                    // Stops at a point that is as high as the opening and what the checks hold back: straight over the lid in the leaned boat is as good as any.
                    const lifted: Point = [0, 0, (height + way.cracks / HELD * 1e3) / heightAt([0, 0, 1], heel, trim)];
                    const { surface, litres: comes } = drained(box, level * gross(tank), heel, trim, lifted, mouth, 16);
                    const reached = surface - heightAt(mouth, heel, trim);
                    return { ...way, head: surface - height - way.cracks / HELD * 1e3, reached, comes };
                });
                // The columns know a surface to some mm.
                if (heads.some(({ head, reached }) => Math.abs(Math.abs(head) - 20) < 8 || Math.abs(reached) < 8)) continue;
                const [sure, maybe] = [true, false].map((only) => heads.filter((way) => way.sure === only && way.reached > 0 && way.head > 20)) as [typeof heads, typeof heads];
                const among = heads.filter((way) => way.reached > 0 && Math.abs(way.head) <= 20);
                const opened = found.get(`${filter.name} lid`)!;
                const where = `boat ${seed}, ${filter.name}, ${JSON.stringify(state)}`;
                met[opened.outcome] = (met[opened.outcome] ?? 0) + 1;
                if (sure.length > 0) expect(opened.outcome, where).toBe('floods');
                else if (maybe.length > 0) expect(opened.outcome, where).toBe('cannot tell');
                else if (heads.length === 0) expect(['shut off', 'falls back'], where).toContain(opened.outcome);
                else if (among.length === 0) expect(['stays', 'falls back'], where).toContain(opened.outcome);
                const joined = drawn.courses.some(({ name, pieces }) => name === 'Cross' && pieces.every((piece) => piece.kind !== 'shutoff' || piece.open));
                if (sure.length > 0 && !joined) {
                    const each = drawn.tanks.map(({ name }) => Math.max(0, ...sure.filter(({ tank }) => tank === name).map(({ comes }) => comes)));
                    const all = drawn.tanks.reduce((sum, tank) => sum + gross(tank), 0);
                    expect(Math.abs(litres(opened) - each.reduce((sum, one) => sum + one, 0)) / all, where).toBeLessThan(0.02);
                    const strongest = Math.max(...sure.map(({ head }) => head));
                    expect(Math.abs(Math.max(...opened.tanks.filter(({ outcome }) => outcome === 'floods').map(({ head }) => head! * 1e3)) - strongest), where).toBeLessThan(8);
                }
            }
        }
    }
    // The lots are no use if they all end alike.
    for (const outcome of ['floods', 'falls back', 'stays', 'cannot tell', 'shut off']) expect(met[outcome] ?? 0, outcome).toBeGreaterThan(3);
});

describe('laws', () => {
    test('in a mirror port becomes starboard', async () => {
        for (const drawn of BOATS) {
            const [boat, twin] = [await boatOf(drawn), await boatOf(mirrored(drawn))];
            for (const state of states(false)) {
                const [one, other] = [at(boat, drawn, state), at(twin, mirrored(drawn), { ...state, heel: -state.heel })];
                for (const [name, opened] of one) same(opened, other.get(name)!);
            }
        }
    });

    test('the order in which things are declared changes nothing', async () => {
        for (const drawn of BOATS) {
            const [boat, turned] = [await boatOf(drawn), await boatOf(drawn, 'turned round')];
            for (const state of [...states(false), ...states(true)]) {
                const [one, other] = [at(boat, drawn, state), at(turned, drawn, state)];
                expect([...other.keys()].sort()).toEqual([...one.keys()].sort());
                for (const [name, opened] of one) same(opened, other.get(name)!);
            }
        }
    });

    test('a valve that is shut floods nothing that was dry, and gives no more', async () => {
        let shut = 0;
        for (const drawn of BOATS) {
            const boat = await boatOf(drawn);
            for (const valve of drawn.courses.flatMap(({ pieces }) => pieces).flatMap((piece) => (piece.kind === 'shutoff' && piece.open ? [piece.name] : []))) {
                shut++;
                const less = JSON.parse(JSON.stringify(drawn), (_, value: { name?: string }) => (value?.name === valve ? { ...value, open: false } : value)) as Drawn;
                const closed = await boatOf(less);
                for (const state of [...states(false), ...states(true)]) {
                    const [before, after] = [at(boat, drawn, state), at(closed, less, state)];
                    for (const name of flooding(after)) {
                        expect(flooding(before), `${valve}, ${name}`).toContain(name);
                        expect(litres(after.get(name)!)).toBeLessThanOrEqual(litres(before.get(name)!) + 1e-6);
                    }
                }
            }
        }
        expect(shut).toBeGreaterThan(15);
    });

    test('worn checks never flood less', async () => {
        for (const drawn of BOATS) {
            const boat = await boatOf(drawn);
            for (const state of states(false)) {
                const [tight, worn] = [at(boat, drawn, state), at(boat, drawn, { ...state, worn: true })];
                for (const name of flooding(tight)) {
                    expect(flooding(worn)).toContain(name);
                    expect(litres(worn.get(name)!)).toBeGreaterThanOrEqual(litres(tight.get(name)!) - 1e-6);
                }
            }
        }
    });

    test('more liquid never floods less', async () => {
        for (const drawn of BOATS) {
            const boat = await boatOf(drawn);
            for (const [heel, trim] of LEANS) {
                let last = new Map<string, Opened>();
                for (const level of [0, 0.05, 0.3, 0.6, 0.9, 1]) {
                    const now = at(boat, drawn, { heel, trim, level, worn: false });
                    for (const name of flooding(last)) {
                        expect(flooding(now)).toContain(name);
                        expect(litres(now.get(name)!)).toBeGreaterThanOrEqual(litres(last.get(name)!) - 1e-6);
                    }
                    last = now;
                }
            }
        }
    });

    test('a filter that is raised with all its places does not begin to flood', async () => {
        for (const drawn of BOATS) {
            const boat = await boatOf(drawn);
            for (const { name } of filtersOf(drawn)) {
                const lift = JSON.parse(JSON.stringify(drawn)) as Drawn;
                const filter = filtersOf(lift).find((other) => other.name === name)!;
                for (const spot of [filter.at, filter.lid, filter.drain]) spot!.up += 150;
                const raised = await boatOf(lift);
                // Higher up in the boat is higher however she leans.
                for (const state of states(false)) {
                    const [low, high] = [at(boat, drawn, state), at(raised, lift, state)];
                    for (const opening of ['lid', 'drain']) if (high.get(`${name} ${opening}`)!.outcome === 'floods') expect(low.get(`${name} ${opening}`)!.outcome).toBe('floods');
                }
            }
        }
    });
});

describe('no number that is none, and no exception', () => {
    const strange = (what: unknown): void => {
        const text = JSON.stringify(what, (_, value: unknown) => { if (typeof value === 'number' && !Number.isFinite(value)) throw new Error('not a number'); return value; });
        expect(text).not.toMatch(/undefined|NaN|Infinity/);
    };
    function everything(boat: Boat): void {
        const network = networkOf(boat);
        for (const lineUp of lineUpsOf(boat)) for (const checks of ['tight', 'leaky'] as const) {
            const under = plumbing(network, lineUp.positions, checks);
            for (const [heel, trim] of LEANS.slice(2)) for (const volume of [0, 0.05]) {
                const condition = { attitude: { heel: heel * Math.PI / 180, trim: trim * Math.PI / 180 }, volumes: new Map(boat.tanks.map(({ id }) => [id, volume])) };
                for (const opening of [...openingsOf(boat).values()].flat()) { strange(open(under, opening, condition)); strange(thresholds(under, opening, condition)); strange(open(under, opening, { ...condition, volumes: new Map() })); }
            }
            strange(severed(boat, lineUp, checks));
        }
        for (const { id } of boat.parts) for (const ask of ['open', 'isolate'] as const) {
            const found = answer(boat, { ask, part: id }, { levels: new Map() });
            strange(found);
            if (found?.data.ask === 'open') for (const said of found.body) if (typeof said === 'string') expect(said).not.toMatch(/undefined|NaN/);
        }
    }

    test('boats of which much is not known', async () => { for (let seed = 100; seed < 106; seed++) everything(await boatOf(drawBoat(seed, 0.35))); });
    test('a boat of which nothing is known', async () => everything(await boatOf(drawBoat(7, 1))));

    const odd = (tank: string, course: string, more = ''): string => `vessel Oddwake {\n  heights from "keel"\n  envelope heel 25 deg   trim 3 deg\n}\ntank T1 carries diesel {\n${tank}\n}\nengine E1 { inlet at 300 mm }\nsupply course Feed from T1.P1 to E1 {\n${course}\n}\nreturn course Back from E1 to T1.R1 { hose B1 }\n${more}`;
    const fittings = '  pickup P1   mouth at 20 mm off bottom   top at 900 mm\n  drop R1';
    test.each([
        ['a tank above its own vent', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}\n  vent   at 400 mm`, '  filter F1   at 200 mm'],
        ['a tank of no volume', `  box 0 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  filter F1   at 200 mm'],
        ['a crest below its low', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  hose S1   bore 8 mm   length 1 m   low at 900 mm   crest at 100 mm\n  filter F1   at 200 mm'],
        ['a lid below its drain', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  filter F1   ports at 200 mm   lid at 100 mm   drain at 400 mm'],
        ['all valves shut', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  shutoff V1   normally shut\n  filter F1   at 200 mm\n  shutoff V2   normally shut'],
        ['a loop', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  tee J1\n  filter F1   at 200 mm\n  tee J2', 'supply course Round from J2 to J1 { hose H1 }\n'],
        ['a loop of tees alone', `  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n${fittings}`, '  tee J1\n  tee J2', 'supply course Round from J2 to J1 { hose H1 }\nsupply course Again from J1 to J2 { filter F9 }\n'],
        ['a mouth over the top of its tank', '  box 500 x 500 x 300 mm   low aft inner corner at 800 mm up\n  pickup P1   mouth at 2000 mm off bottom   top at 900 mm\n  drop R1', '  filter F1   at 200 mm'],
    ])('%s', async (_, tank, course, more = '') => {
        const { loadBoat } = await import('../../src/language/load');
        everything((await loadBoat({ 'boat.orlop': odd(tank, course, more) })).boat);
    });
});
