/** Tanks for the tests, in mm as people measure them. */
import type { Tank } from '../../src/model/boat';
import type { Place } from '../../src/model/measure';

export const DEG = Math.PI / 180;

const m = (mm: number): { si: number } => ({ si: mm / 1e3 });

export const place = (up: number, fwd: number, stbd: number): Place => ({ up: m(up), fwd: m(fwd), stbd: m(stbd) });

export const boxTank = (length: number, breadth: number, height: number, corner: Place, outboard: 1 | -1 = 1): Tank => ({
    id: 'T1', fittings: [], box: { length: length / 1e3, breadth: breadth / 1e3, height: height / 1e3, corner, outboard },
});

/** Each section: its place forward, then its corners, up and to starboard. */
export const sectionTank = (...sections: readonly (readonly [number, readonly (readonly [number, number])[]])[]): Tank => ({
    id: 'T1', fittings: [], sections: sections.map(([fwd, corners]) => ({ fwd: fwd / 1e3, corners: corners.map(([up, stbd]) => ({ up: up / 1e3, stbd: stbd / 1e3 })) })),
});

/** The worked vessel's tank: 800 x 600 x 420 mm, its low aft inner corner 200 mm up, 2200 mm fwd, 550 mm stbd. */
export const WORKED = boxTank(800, 600, 420, place(200, 2200, 550));
/** Where its pickup ends. */
export const MOUTH = place(225, 2350, 700);
