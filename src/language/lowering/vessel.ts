/** Vessel, tanks and consumers. */
import type { Carries, Consumer as ConsumerModel, Exhaust, Fitting as FittingModel, FuelGrade, Injection, Tank as TankModel, Vent, Vessel as VesselModel } from '../../model/boat';
import type { Evidence, Place } from '../../model/measure';
import type { AstNode } from 'langium';
import type { Consumer, Fitting, Tank, Vessel } from '../generated/ast';
import type { Facts } from '../facts';
import { unquote } from '../quantity';
import { likePorts, likeVents, likenessSlip, lineage, portName, turnedIn, type LikeVent, type Likeable } from '../likeness';
import type { Context } from './context';
import { bottomOf, lowerShape } from './tank-shape';

export const NO_VESSEL: VesselModel = { declared: false, envelope: {}, speeds: [], fuel: { viscosity: [] }, rules: [], spaces: [] };

export function lowerVessel(context: Context, vessel: Vessel): VesselModel {
    const facts = context.read('vessel', vessel);
    context.sources.add('vessel', vessel.$cstNode!, vessel.$cstNode);
    context.keepFacts('vessel', facts);
    const rules = facts.get('answers to')?.choice;
    return {
        declared: true,
        ...optional('length', facts.measure('length')),
        ...optional('datum', facts.get('heights from')?.text),
        ...optional('waterline', context.place('vessel', facts.get('waterline')?.place)),
        envelope: {
            ...optional('heel', facts.measure('envelope heel')), ...optional('trim', facts.measure('envelope trim')),
            ...optional('level', facts.measure('envelope level')), ...optional('fuel', facts.measure('envelope fuel')), ...optional('survival', facts.measure('survival heel')),
        },
        speeds: facts.get('speed')?.points ?? [], ...optional('reserve', facts.measure('reserve')),
        fuel: {
            ...optional('grade', facts.get('runs on')?.choice as FuelGrade | undefined), ...optional('density', facts.measure('fuel density')),
            viscosity: facts.get('fuel viscosity')?.points ?? [], ...optional('dirt', facts.measure('fuel dirt')), ...optional('cleanliness', facts.get('fuel cleanliness')?.text),
        },
        rules: rules === undefined ? [] : [rules],
        spaces: vessel.spaces.filter((space) => space.name !== undefined).map((space) => {
            const id = context.claim(space.name, space.$cstNode);
            return { id, machinery: context.read('space', space).has('machinery') };
        }),
    };
}

export function lowerTank(context: Context, tank: Tank): TankModel {
    const id = context.claim(tank.name, tank.$cstNode);
    const line = likeLine(context, tank);
    context.things.set(id, { kind: 'tank', line, tagged: true });
    const facts = context.readLine('tank', line, id);
    context.keepFacts(id, facts);
    const shape = lowerShape(context, id, line, facts);
    const bottom = bottomOf(shape);
    if (bottom) context.bottoms.set(id, bottom);
    const ports = new Set<string>();
    const fittings: FittingModel[] = [];
    for (const fitting of tank.fittings) {
        const port = portName(fitting);
        if (ports.has(port)) context.problem('port-twice', fitting.$cstNode, `${id} has two fittings called \`${port}\`. Give one of them another name.`);
        ports.add(port);
    }
    for (const fitting of likePorts(tank) as Fitting[]) {
        const port = portName(fitting);
        const fittingId = `${id}.${port}`;
        context.sources.add(fittingId, fitting.$cstNode!, undefined, tank.$cstNode);
        const layers = line.flatMap((other, i) => other.fittings.filter((same) => portName(same) === port && same.kind === fitting.kind).map((same) => ({ same, i })));
        const turned = turnedIn(line);
        const own = context.readLine('fitting', layers.map(({ same }) => same), fittingId, { turned: layers.map(({ i }) => turned[i]!), own: layers[0]?.i === 0 ? 1 : 0 });
        context.keepFacts(fittingId, own, facts.given);
        const top = context.place(fittingId, (own.get('top') ?? own.get('at'))?.place);
        const ends = own.has('under pressure') ? 'under pressure' : own.get('ends')?.choice as FittingModel['fillEnds'];
        fittings.push({
            id: fittingId, tank: id, kind: fitting.kind, port,
            ...optional('bore', own.measure('bore')), ...optional('mouth', context.place(fittingId, own.get('mouth')?.place, top)),
            ...optional('top', top), ...optional('fillEnds', ends), ...optional('takes', own.measure('takes')),
        });
    }
    return {
        id, fittings, ...optional('title', tank.title && unquote(tank.title)), ...optional('space', facts.get('in')?.ref?.to.$refText),
        ...optional('carries', facts.get('carries')?.choice as Carries | undefined), ...optional('tested', facts.measure('tested')), ...shape,
    };
}

export function lowerConsumer(context: Context, consumer: Consumer): ConsumerModel {
    const id = context.claim(consumer.name, consumer.$cstNode);
    const line = likeLine(context, consumer);
    context.things.set(id, { kind: consumer.kind, line, tagged: true });
    const facts = context.readLine('consumer', line, id);
    context.keepFacts(id, facts);
    const injection = lowerInjection(facts);
    const inlet = context.place(id, (facts.get('injection inlet') ?? facts.get('inlet'))?.place);
    return {
        id, kind: consumer.kind, ...optional('title', consumer.title && unquote(consumer.title)), ...optional('space', facts.get('in')?.ref?.to.$refText),
        burns: facts.get('burns')?.points ?? [], draws: facts.get('draws')?.points ?? [],
        limits: {
            ...optional('inlet', facts.measure('limits inlet')), ...optional('lift', facts.measure('limits lift')),
            ...optional('return', facts.measure('limits return')), ...optional('clean', facts.measure('limits clean')),
            ...optional('head', facts.measure('limits head')), ...optional('fuel', facts.measure('limits fuel')),
        },
        returns: facts.get('returns')?.points ?? [],
        ...optional('injection', injection), ...optional('exhaust', lowerExhaust(facts)),
        ...optional('holds', facts.measure('injection holds') ?? facts.measure('holds')), ...optional('inlet', inlet),
        vents: lowerVents(context, id, likeVents(line, consumer.name), { by: consumer, given: facts.given, base: inlet }), selfBleeding: facts.has('self-bleeding'),
        ...optional('backflow', facts.get('backflow')?.choice as ConsumerModel['backflow']),
        ...(facts.has('loses prime') && { losesPrime: true as const }),
    };
}

function lowerInjection(facts: Facts): Injection | undefined {
    const pump = (['in-line', 'rotary', 'unit', 'common-rail'] as const).find((kind) => facts.has(`injection ${kind}`));
    const control = (['mechanical', 'electronic'] as const).find((kind) => facts.has(`injection ${kind}`));
    return pump && { pump, ...optional('control', control) };
}

function lowerExhaust(facts: Facts): Exhaust | undefined {
    const kind = (['wet', 'dry'] as const).find((word) => facts.has(`exhaust ${word}`));
    return kind && {
        kind, ...optional('mufflerFree', facts.measure('exhaust muffler free')),
        ...optional('rawWater', facts.get('exhaust raw water')?.points?.[0]), ...optional('cranks', facts.measure('exhaust cranks')),
    };
}

/** A declaration and what it is like; a slip in that is told. */
export function likeLine<T extends Likeable>(context: Context, node: T): T[] {
    const slip = likenessSlip(node);
    if (slip) context.problem('like', slip.ref.$cstNode, slip.message);
    return lineage(node) as T[];
}

/** Where vents stand: the node that makes their tags, what is known of the whole, the place they inherit. */
interface VentSetting {
    readonly by: AstNode;
    readonly given: Evidence | undefined;
    readonly base?: Place | undefined;
}

export function lowerVents(context: Context, part: string, vents: readonly LikeVent[], { by, given, base }: VentSetting): Vent[] {
    return vents.map(({ layers, own, turned, tag }) => {
        const vent = layers[0]!;
        const id = context.claim(tag, vent.$cstNode, vent.$container === by ? vent : by);
        const facts = context.readLine('bleed', layers, id, { turned, own });
        context.keepFacts(id, facts, given);
        const title = layers.find((layer) => layer.title)?.title;
        return {
            id, tag, part, ...optional('title', title && unquote(title)),
            ...optional('at', context.place(part, facts.get('at')?.place, base)), ...optional('spanner', facts.measure('spanner')),
        };
    });
}

/** `{ [key]: value }`, or nothing when there is no value. */
export function optional<K extends string, V>(key: K, value: V | undefined | ''): { [P in K]?: V } {
    return (value === undefined || value === '' ? {} : { [key]: value }) as { [P in K]?: V };
}
