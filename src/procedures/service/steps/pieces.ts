/** remove F1 element, fit F1 lid ring, remove S1, clean F1 bowl, look F1 bowl, look all joints. */
import type { HandStep, LookStep, PieceStep } from '../../../model/step';
import type { BrokenLaw } from '../laws';
import { belongsTo, hasPiece, isHidden, isInside, kindOf, sealsOf } from '../pieces';
import { breaks, type Done } from '../program';
import { having, havingOf, openParts, without, withoutOf, type Stage } from '../stage';
import type { ServiceState } from '../state';
import { drain } from './opening';
import { openingLaws } from './hands';

export function remove(stage: Stage, state: ServiceState, { part, pieces }: PieceStep): Done {
    const { ground } = stage;
    const owner = ground.owner(part);
    if (!owner) return { state, broken: [breaks('no-such-part', [part])] };
    if (pieces.length === 0) return takeOff(stage, state, part);
    let after = state;
    const broken: BrokenLaw[] = [];
    for (const piece of pieces) {
        broken.push(...reached(stage, after, part, piece));
        if (after.out.get(part)?.has(piece)) broken.push(breaks('no-such-piece', [part, piece]));
        after = {
            ...after, out: havingOf(after.out, part, piece), fitted: withoutOf(after.fitted, part, piece),
            ...(sealsOf(owner).includes(piece) && { disturbed: havingOf(after.disturbed, part, piece) }),
        };
    }
    return { state: after, broken };
}

function takeOff(stage: Stage, state: ServiceState, part: string): Done {
    if (state.out.get(part)?.has('')) return { state, broken: [breaks('no-such-piece', [part])] };
    const stands = openParts(state).get(part)?.some((name) => kindOf({ name }) === 'body');
    return {
        state: drain(stage, { ...state, out: havingOf(state.out, part, ''), fitted: withoutOf(state.fitted, part, ''), opened: having(state.opened, part), unseen: having(state.unseen, part) }, [part]),
        broken: stands ? [] : openingLaws(stage, state, stage.ground.takenOff(part)),
    };
}

/** That there is such a piece, and that hands come to it. */
function reached({ ground, program }: Stage, state: ServiceState, part: string, piece: string): BrokenLaw[] {
    const owner = ground.owner(part);
    if (!hasPiece(ground.boat, owner, piece, program.jobs)) return [breaks('no-such-piece', [part, piece])];
    const open = (openParts(state).get(part) ?? []).some((name) => kindOf({ name }) === belongsTo(piece) || name === '');
    return isInside(owner, piece) && !open ? [breaks('not-open', [part, piece])] : [];
}

export function fit(stage: Stage, state: ServiceState, { part, pieces, again }: PieceStep): Done {
    if (!stage.ground.owner(part)) return { state, broken: [breaks('no-such-part', [part])] };
    let after = state;
    const broken: BrokenLaw[] = [];
    for (const piece of pieces.length === 0 ? [''] : pieces) {
        if (piece !== '') broken.push(...reached(stage, after, part, piece));
        // The old one is still in, or there is nothing to put in again.
        if (!after.out.get(part)?.has(piece)) { broken.push(breaks(again ? 'not-out' : 'still-in', [part, ...(piece === '' ? [] : [piece])])); continue; }
        after = {
            ...after, out: withoutOf(after.out, part, piece),
            ...(!again && { fitted: havingOf(after.fitted, part, piece), disturbed: piece === '' ? withoutOf(after.disturbed, part, ...after.disturbed.get(part) ?? []) : withoutOf(after.disturbed, part, piece) }),
        };
    }
    return { state: after, broken };
}

export function clean(stage: Stage, state: ServiceState, { part, piece }: Extract<HandStep, { do: 'clean' }>): Done {
    if (!stage.ground.owner(part)) return { state, broken: stage.ground.boat.tanks.some(({ id }) => id === part) ? [] : [breaks('no-such-part', [part])] };
    return { state, broken: piece === '' ? [] : reached(stage, state, part, piece) };
}

/** A look at what is closed again shows that it is dry. Of what is inside, a bowl may be seen from without. */
export function look({ ground }: Stage, state: ServiceState, { part, piece }: LookStep): Done {
    const open = openParts(state);
    if (part === undefined) return { state: { ...state, unseen: new Set([...state.unseen].filter((id) => open.has(id))) }, broken: [] };
    const owner = ground.owner(part);
    if (!owner && !ground.boat.tanks.some(({ id }) => id === part)) return { state, broken: [breaks('no-such-part', [part])] };
    const hidden = isHidden(owner, piece) && !open.has(part) && !state.out.get(part)?.has(piece);
    return { state: open.has(part) ? state : { ...state, unseen: without(state.unseen, part) }, broken: hidden ? [breaks('not-open', [part, piece])] : [] };
}
