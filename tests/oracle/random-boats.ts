/** Boats drawn by lot from a seed, each with one request, and the same boats as text. All are invented, none is sensible on purpose. */
import { rig, type BenchBoat, type BenchCourse, type BenchFilter, type Item, type Request } from './bench';

export interface Case { readonly boat: BenchBoat; readonly request: Request }

/** Mulberry32: small, and the same everywhere. */
export function lots(seed: number): () => number {
    let a = seed >>> 0;
    return () => {
        a = (a + 0x6d2b79f5) >>> 0;
        let t = Math.imul(a ^ (a >>> 15), a | 1);
        t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
        return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    };
}

/** The first boat from this seed whose asked-for engine can run in the END line-up and that the bench can hold. */
export function randomCase(seed: number): Case {
    for (let turn = 0; ; turn++) {
        const drawn = draw(lots(seed * 1009 + turn));
        if (!drawn || holding(drawn.boat) > 31) continue;
        if (rig(drawn.boat, drawn.request).runs) return drawn;
    }
}

const walkItems = (items: readonly Item[]): readonly Item[] =>
    items.flatMap((item) => item.kind === 'split' ? item.legs.flatMap((leg) => walkItems(leg.items)) : [item]);
const itemsOf = (boat: BenchBoat): readonly Item[] => boat.courses.flatMap((course) => walkItems(course.items));
const HOLLOW = ['shutoff', 'check', 'gauge', 'tee'];
const holding = (boat: BenchBoat): number => boat.engines.length + itemsOf(boat).filter((item) => !HOLLOW.includes(item.kind)).length;

export function ventsOf(boat: BenchBoat): number {
    return boat.engines.reduce((sum, engine) => sum + engine.vents.length, 0)
        + itemsOf(boat).reduce((sum, item) => sum + (item.kind === 'filter' ? item.vents.length : 0), 0);
}
export function valvesOf(boat: BenchBoat): number {
    return boat.selectors.length + itemsOf(boat).filter((item) => item.kind === 'shutoff').length;
}

function draw(lot: () => number): Case | undefined {
    const chance = (p: number): boolean => lot() < p;
    const below = (n: number): number => Math.floor(lot() * n);
    const pick = <T>(from: readonly T[]): T => from[below(from.length)]!;
    const some = (p: number, ...items: Item[]): Item[] => (chance(p) ? items : []);
    const counts = new Map<string, number>();
    const name = (stem: string): string => {
        counts.set(stem, (counts.get(stem) ?? 0) + 1);
        return `${stem}${counts.get(stem)}`;
    };

    const shutoff = (normally?: 'open' | 'shut'): Item => ({ kind: 'shutoff', name: name('V'), ...(normally ? { normally } : chance(0.5) && { normally: 'open' as const }) });
    const check = (): Item => ({ kind: 'check', name: name('C') });
    const pipe = (): Item => ({ kind: chance(0.5) ? 'hose' : 'tube', name: name('S') });
    const lift = (): Item => ({ kind: 'lift pump', name: name('LP') });
    const filter = (role?: 'primary' | 'final'): BenchFilter => {
        const vents = Array.from({ length: pick([0, 1, 1, 1, 2]) }, () => name('BF'));
        const prefill = pick([undefined, undefined, 'allowed', 'forbidden', 'not on the clean side'] as const);
        return { kind: 'filter', name: name('F'), ...(role && { role }), vents, ...(prefill && { prefill }) };
    };
    const primer = (inLine: boolean): Item => {
        if (chance(0.65)) return { kind: 'hand primer', name: name('PR') };
        const electric = chance(0.7) ? 'electric primer' : 'electric pump';
        const whenOff = inLine ? 'passes' : pick([undefined, 'passes', 'blocks'] as const);
        return { kind: electric, name: name('EP'), ...(whenOff && { whenOff }) };
    };
    const bypass = (): Item => {
        const main = [...some(0.6, check()), ...some(0.3, shutoff('open')), ...some(0.3, pipe())];
        return {
            kind: 'split', legs: [
                { name: 'main', items: main.length > 0 ? main : [pipe()] },
                { name: 'bypass', items: [...some(0.8, shutoff('shut')), ...some(0.2, pipe()), primer(false), ...some(0.2, check()), ...some(0.2, pipe())] },
            ],
        };
    };
    const primerSomehow = (): Item => (chance(0.3) ? bypass() : primer(true));

    // ---- the supply: blocks in a likely order, then disturbed

    const shuffleLittle = (items: Item[]): Item[] => {
        for (let i = 0; i + 1 < items.length; i++) {
            if (chance(0.12)) [items[i], items[i + 1]] = [items[i + 1]!, items[i]!];
        }
        return items;
    };
    const insert = (into: Item[], what: readonly Item[]): void => { for (const item of what) into.splice(below(into.length + 1), 0, item); };
    const withPipes = (items: readonly Item[], p: number): Item[] => items.flatMap((item) => [item, ...some(p, pipe())]);

    const primers = pick([0, 0, 1, 1, 1, 1, 1, 2]);
    const blocks: Item[] = [
        ...(primers > 0 ? [primerSomehow()] : []), filter('primary'),
        ...(primers > 1 ? [primerSomehow()] : []), ...some(primers > 0 ? 0.6 : 0.95, lift()), ...some(0.6, filter('final')), ...some(0.15, filter()),
    ];
    shuffleLittle(blocks);
    insert(blocks, [...some(0.35, shutoff()), ...some(0.2, shutoff()), ...some(0.15, check()), ...some(0.15, { kind: 'gauge', name: name('GA') })]);
    const two = chance(0.45);
    const teeAt = below(blocks.length + 1);
    const shared = withPipes(two ? blocks.slice(0, teeAt) : blocks, 0.35);
    const own = two ? withPipes(blocks.slice(teeAt), 0.35) : [];
    const branch = two ? shuffleLittle([
        ...some(0.5, shutoff()), ...some(0.25, check()), pipe(), ...some(0.35, primer(true)), ...some(0.35, filter()), ...some(0.3, lift()), ...some(0.3, filter('final')),
    ]) : [];

    // ---- tanks, and how they are joined

    const tanksJoined = chance(0.4) ? pick(['selector', 'tee'] as const) : undefined;
    const twoTanks = tanksJoined !== undefined || chance(0.1);
    const tail: Item[] = two ? [...shared, { kind: 'tee', name: 'J1' }, ...own] : shared;
    const courses: BenchCourse[] = [];
    const fromTank = (): Item[] => [...some(0.7, shutoff()), ...some(0.5, pipe())];
    if (tanksJoined === 'selector') {
        courses.push(
            { service: 'supply', name: 'FeedA', from: 'T1.P1', to: 'SV1.A', items: [...some(0.5, shutoff()), pipe()] },
            { service: 'supply', name: 'FeedB', from: 'T2.P1', to: 'SV1.B', items: [...some(0.3, shutoff()), pipe()] },
            { service: 'supply', name: 'Feed', from: 'SV1.Out', to: 'E1', items: tail },
        );
    } else if (tanksJoined === 'tee') {
        courses.push(
            { service: 'supply', name: 'Feed', from: 'T1.P1', to: 'E1', items: [...fromTank(), { kind: 'tee', name: 'JT' }, ...tail] },
            { service: 'supply', name: 'FeedB', from: 'T2.P1', to: 'JT', items: [...some(0.85, shutoff()), pipe()] },
        );
    } else {
        courses.push({ service: 'supply', name: 'Feed', from: 'T1.P1', to: 'E1', items: [...fromTank(), ...tail] });
    }
    if (two) courses.push({ service: 'supply', name: 'Gen', from: 'J1', to: 'G1', items: branch });

    const returnTo = twoTanks ? pick(['shutoff', 'selector', 'plain', 'other'] as const) : pick(['shutoff', 'plain', 'plain'] as const);
    const teed = two && chance(0.4);
    const back: Item[] = [pipe(), ...(teed ? [{ kind: 'tee', name: 'JR' } as const] : []), ...(returnTo === 'shutoff' ? [shutoff('open')] : [])];
    if (returnTo === 'selector') {
        courses.push(
            { service: 'return', name: 'Back', from: 'E1', to: 'SR1.In', items: back },
            { service: 'return', name: 'BackA', from: 'SR1.A', to: 'T1.R1', items: [pipe()] },
            { service: 'return', name: 'BackB', from: 'SR1.B', to: 'T2.R1', items: [pipe()] },
        );
    } else {
        courses.push({ service: 'return', name: 'Back', from: 'E1', to: returnTo === 'other' ? 'T2.R1' : 'T1.R1', items: back });
    }
    if (two) courses.push({ service: 'return', name: 'BackG', from: 'G1', to: teed ? 'JR' : 'T1.R2', items: [pipe(), ...(teed ? some(0.2, shutoff('open')) : [])] });
    if (twoTanks && tanksJoined === undefined && returnTo !== 'selector' && returnTo !== 'other') return undefined;

    const fittings = (tank: string, stem: string): string[] =>
        [...new Set(courses.flatMap((course) => [course.from, course.to]).filter((end) => end.startsWith(`${tank}.${stem}`)))].map((end) => end.slice(tank.length + 1));
    const selectors: BenchBoat['selectors'] = [
        ...(tanksJoined === 'selector' ? [{
            name: 'SV1', ports: ['A', 'B', 'Out'],
            positions: { One: [['A', 'Out']], Two: [['B', 'Out']], ...(chance(0.4) && { Both: [['A', 'B', 'Out']] }), ...(chance(0.3) && { Off: [] }) },
        }] : []),
        ...(returnTo === 'selector' ? [{
            name: 'SR1', ports: ['In', 'A', 'B'], positions: { Port: [['In', 'A']], Stbd: [['In', 'B']] },
        }] : []),
    ];

    // ---- line-ups

    const shutoffs = courses.flatMap((course) => walkItems(course.items)).flatMap((item) => (item.kind === 'shutoff' ? [item] : []));
    const run: Record<string, string> = {};
    for (const valve of shutoffs) run[valve.name] = valve.normally ?? (chance(0.85) ? 'open' : 'shut');
    for (const selector of selectors) run[selector.name] = pick(Object.keys(selector.positions));
    const service = Object.fromEntries(shutoffs.filter((valve) => run[valve.name] === 'open' && chance(0.5)).map((valve) => [valve.name, 'shut']));
    const lineUps: { name: string; use: 'run' | 'service'; settings: Record<string, string> }[] = [{ name: 'RUN', use: 'run', settings: run }];
    if (Object.keys(service).length > 0) lineUps.push({ name: 'SERVICE', use: 'service', settings: service });
    const changed = Object.fromEntries([...shutoffs.filter(() => chance(0.2)).map((valve) => [valve.name, run[valve.name] === 'open' ? 'shut' : 'open'] as const),
        ...selectors.filter(() => chance(0.5)).map((selector) => [selector.name, pick(Object.keys(selector.positions))] as const)]);
    if (chance(0.3) && Object.keys(changed).length > 0) lineUps.push({ name: 'RUN-B', use: 'run', settings: changed });

    const boat: BenchBoat = {
        tanks: ['T1', ...(twoTanks ? ['T2'] : [])].map((tank) => ({ name: tank, pickups: fittings(tank, 'P'), drops: fittings(tank, 'R') })),
        engines: [
            { name: 'E1', kind: 'engine', vents: Array.from({ length: pick([1, 1, 2]) }, () => name('BE')) },
            ...(two ? [{ name: 'G1', kind: 'generator' as const, vents: Array.from({ length: pick([1, 1, 2]) }, () => name('BG')) }] : []),
        ],
        selectors, courses, lineUps,
    };

    // ---- what is asked

    const engine = two && chance(0.35) ? 'G1' : 'E1';
    const openable = walkItems([...shared, ...(engine === 'G1' ? branch : own)])
        .filter((item) => item.kind === 'filter' || ((item.kind === 'hand primer' || item.kind === 'lift pump') && chance(0.3)));
    const ranDry = openable.length === 0 || chance(two ? 0.35 : 0.15);
    const opened = new Set<string>();
    for (let left = pick([1, 1, 2, 3]); left > 0 && !ranDry; left--) opened.add((pick(openable) as { name: string }).name);
    const request: Request = {
        engine, ranDry, opened: [...opened],
        starts: pick(lineUps).name,
        ends: pick(lineUps.filter((one) => one.use === 'run')).name,
    };
    return { boat, request };
}

// ---- heights, seals and exhausts, drawn by lot too

/** Tanks as boxes on either side; everything else at about their height, so that leaning turns some openings from dry to flooding. */
export function dressOf(boat: BenchBoat, seed: number): Dress {
    const lot = lots(seed * 7919 + 17);
    const between = (low: number, high: number): number => Math.round((low + lot() * (high - low)) / 10) * 10;
    const chance = (p: number): boolean => lot() < p;
    const facts = new Map<string, readonly string[]>();
    const place = (up: number): string => `at ${up} mm up, ${between(1500, 3500)} mm fwd, ${between(10, 400)} mm ${chance(0.5) ? 'port' : 'stbd'}`;
    boat.tanks.forEach((tank, i) => {
        const side = i === 0 ? 'port' : 'stbd';
        const floor = between(200, 500);
        facts.set(tank.name, [`box 800 x 500 x 400 mm   low aft inner corner at ${floor} mm up, 2000 mm fwd, 600 mm ${side}`]);
        for (const port of [...tank.pickups, ...tank.drops]) {
            facts.set(`${tank.name}.${port}`, [`mouth at ${chance(0.8) ? 25 : 380} mm off bottom   top at ${floor + 430} mm up, ${between(2100, 2700)} mm fwd, ${between(700, 1000)} mm ${side}`]);
        }
    });
    for (const engine of boat.engines) {
        const up = between(500, 1100);
        facts.set(engine.name, [
            `inlet ${place(up)}`, ...(chance(0.5) ? ['backflow blocks'] : []),
            chance(0.6) ? `exhaust wet   muffler free ${between(20, 60) / 10} L   raw water 40 L/min at 3000 rpm   cranks 200 rpm` : 'exhaust dry',
        ]);
        for (const vent of engine.vents) facts.set(vent, [`at ${up + 20} mm`]);
    }
    for (const item of itemsOf(boat)) {
        if (item.kind === 'tee' || item.kind === 'split' || item.kind === 'hose' || item.kind === 'tube') continue;
        const up = between(300, 1000);
        if (item.kind !== 'filter') { if (chance(0.9)) facts.set(item.name, [place(up)]); continue; }
        const seals = ['lid ring', ...(chance(0.5) ? ['T-ring'] : []), ...(chance(0.6) ? ['drain washer'] : [])];
        const low = seals.includes('drain washer') ? [`drain at ${up - 150} mm`] : [];
        facts.set(item.name, [`ports ${place(up)}`, `lid at ${up + 40} mm`, ...low, `seals ${seals.join(', ')}`]);
        for (const vent of item.vents) facts.set(vent, [`at ${up + 45} mm`]);
    }
    return { vessel: ['envelope heel 20 deg   trim 3 deg   level 10 to 95 %'], facts };
}

// ---- as text

/** What else is said of the boat: of the vessel, and by the name of a thing (of a fitting `T1.P1`) the facts that follow its own. */
export interface Dress { readonly vessel: readonly string[]; readonly facts: ReadonlyMap<string, readonly string[]> }

export function toText(boat: BenchBoat, dress?: Dress): string {
    const facts = (name: string): readonly string[] => dress?.facts.get(name) ?? [];
    const more = (name: string): string => facts(name).map((fact) => `   ${fact}`).join('');
    const fittings = (tank: string, kind: 'pickup' | 'drop', ports: readonly string[]): string[] => ports.map((port) => `  ${kind} ${port}   bore 8 mm${more(`${tank}.${port}`)}`);
    return [
        dress ? ['vessel Bench {', ...dress.vessel.map((fact) => `  ${fact}`), '}'].join('\n') : 'vessel Bench',
        ...boat.tanks.map((tank) => [
            `tank ${tank.name} carries diesel {`, ...facts(tank.name).map((fact) => `  ${fact}`), ...fittings(tank.name, 'pickup', tank.pickups), ...fittings(tank.name, 'drop', tank.drops), '}',
        ].join('\n')),
        ...boat.engines.map((engine) => [
            `${engine.kind} ${engine.name} {`, '  injection in-line mechanical   holds 60 mL', ...(dress ? facts(engine.name).map((fact) => `  ${fact}`) : ['  exhaust dry']),
            ...engine.vents.map((vent) => `  bleed ${vent}${more(vent)}`), '}',
        ].join('\n')),
        ...boat.selectors.map((selector) => [
            `selector ${selector.name} {`, `  ports ${selector.ports.join(', ')}`,
            ...Object.entries(selector.positions).map(([position, groups]) => `  position ${position} joins ${groups.map((group) => group.join(', ')).join(' and ') || 'nothing'}`), '}',
        ].join('\n')),
        ...boat.courses.map((course) => [
            `${course.service} course ${course.name} from ${course.from} to ${course.to} {`, ...course.items.flatMap((item) => itemLines(item, '  ', facts)), '}',
        ].join('\n')),
        ...boat.lineUps.map((lineUp, i) => [
            `line-up ${lineUp.name} ${lineUp.use} ${i === 0 ? 'is normal' : `from ${boat.lineUps[0]!.name}`} {`,
            ...Object.entries(lineUp.settings).map(([part, state]) => `  ${part} ${state}`), '}',
        ].join('\n')),
    ].join('\n\n') + '\n';
}

function itemLines(item: Item, indent: string, said: (name: string) => readonly string[]): string[] {
    const own = item.kind === 'split' ? [] : said(item.name);
    const line = (words: string, ...more: string[]): string[] => [[indent + words, ...more, ...own].join('   ')];
    switch (item.kind) {
        case 'hose': return line(`hose ${item.name}`, 'bore 8 mm', 'length 800 mm');
        case 'tube': return line(`tube ${item.name}`, 'bore 6 mm', 'length 600 mm');
        case 'shutoff': return line(`shutoff ${item.name}`, ...(item.normally ? [`normally ${item.normally}`] : []));
        case 'check': case 'gauge': case 'tee': return line(`${item.kind} ${item.name}`);
        case 'hand primer': return line(`primer ${item.name}`, 'stroke 15 mL', 'holds 20 mL');
        case 'lift pump': return line(`lift pump ${item.name}`, 'lever 3 mL', 'holds 25 mL');
        case 'electric primer': case 'electric pump':
            return line(`${item.kind} ${item.name}`, 'gives 30 L/h', 'holds 50 mL', ...(item.whenOff ? [`when off ${item.whenOff}`] : []));
        case 'filter': {
            const facts = [`filter ${item.name}`, ...(item.role ? [item.role] : []), 'holds 300 mL', ...(item.prefill ? [`prefill ${item.prefill}`] : [])];
            if (item.vents.length === 0) return line(facts[0]!, ...facts.slice(1));
            const vent = (name: string): string => [`${indent}  bleed ${name}`, ...said(name)].join('   ');
            return [`${indent}${[...facts, ...own].join('   ')} {`, ...item.vents.map(vent), `${indent}}`];
        }
        case 'split':
            return [`${indent}split {`, ...item.legs.flatMap((leg) => [`${indent}  leg ${leg.name} {`, ...leg.items.flatMap((inner) => itemLines(inner, `${indent}    `, said)), `${indent}  }`]), `${indent}}`];
    }
}
