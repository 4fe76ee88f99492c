/** A consumer that draws from one tank and returns to another: asked by two rules. */
import type { Consumer, Id } from '../model/boat';
import type { ResolvedLineUp } from '../analysis/topology/line-ups';
import { tanksAfter, tanksBefore } from '../analysis/topology/paths';
import { fills, ledgersOf } from '../analysis/time/overflow';
import type { View } from './check';

export interface Mismatch {
    readonly consumer: Consumer;
    readonly from: Id;
    readonly to: Id;
}

/** How supply and return lie in a line-up, tanks that an open line joins counted as one; `elsewhere` where it is not one each way. */
export function wayRound(view: View, { id }: Consumer, lineUp: ResolvedLineUp): 'same' | 'elsewhere' | { readonly from: Id; readonly to: Id } {
    const linedUp = view.running(lineUp);
    const [supply, back] = [tanksBefore(linedUp, `${id}:in`), tanksAfter(linedUp, `${id}:out`)];
    const groups = view.joined(lineUp);
    const [from, to] = [supply, back].map((tanks) => groups.filter((group) => group.some((tank) => tanks.includes(tank))));
    if (from!.length !== 1 || to!.length !== 1) return 'elsewhere';
    return from![0] === to![0] ? 'same' : { from: supply[0]!, to: back[0]! };
}

/** Where it can be told; nothing for a consumer without a return. */
export function mismatched(view: View, consumer: Consumer, lineUp: ResolvedLineUp): Mismatch | undefined {
    if (!view.boat.joints.some(({ from }) => from === `${consumer.id}:out`) || lineUp.stopped.includes(consumer.id)) return undefined;
    const found = wayRound(view, consumer, lineUp);
    return typeof found === 'string' ? undefined : { consumer, ...found };
}

/** Whether the tank that takes the return fills, and it can be told when: RETURN-OVERFLOW then tells it. */
export function isTimed({ boat }: View, lineUp: ResolvedLineUp, to: Id): boolean {
    const [tank, ledger] = [boat.tanks.find(({ id }) => id === to), ledgersOf(boat, lineUp).find((other) => other.tank === to)];
    return tank !== undefined && ledger !== undefined && fills(tank, 0, ledger).toGross !== undefined;
}
