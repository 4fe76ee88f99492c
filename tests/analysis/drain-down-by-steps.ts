/**
 * Liquid leaving a tank in small steps, in mm. It knows nothing of the program: the tank is a row of upright columns, the boat is turned
 * point by point, and the surface sinks a little at a time while it stands over the opening and over the mouth.
 */
export type Point = readonly [fwd: number, stbd: number, up: number];

export interface Box {
    /** The corner that is lowest, furthest aft and furthest to port. */
    readonly at: Point;
    readonly size: Point;
}

/** Heeled to starboard about the fore-and-aft axis, then with the bow up about the axis across; degrees. */
export function heightAt([fwd, stbd, up]: Point, heel: number, trim: number): number {
    const [h, t] = [heel * Math.PI / 180, trim * Math.PI / 180];
    const leaned = up * Math.cos(h) - stbd * Math.sin(h);
    return leaned * Math.cos(t) + fwd * Math.sin(t);
}

/** Litres below a height, by columns. */
function below(columns: readonly number[], rise: number, { size: [length, breadth, high] }: Box, height: number): number {
    const area = length * breadth / columns.length;
    let litres = 0;
    for (const foot of columns) litres += Math.min(Math.max((height - foot) / rise, 0), high) * area / 1e6;
    return litres;
}

/** The height of the surface, and the litres that come until the liquid stops: at the opening, at the mouth, or when nothing is left. `fine`: columns either way. */
export function drained(box: Box, litres: number, heel: number, trim: number, opening: Point, mouth: Point, fine = 48): { surface: number; litres: number } {
    const [[x, y, z], [length, breadth, high]] = [box.at, box.size];
    const columns = Array.from({ length: fine * fine }, (_, i) => heightAt([x + length * ((i % fine) + 0.5) / fine, y + breadth * (Math.floor(i / fine) + 0.5) / fine, z], heel, trim));
    const rise = heightAt([0, 0, 1], heel, trim);
    const [low, top] = [Math.min(...columns), Math.max(...columns) + rise * high];
    const step = (top - low) / (80 * fine);
    let surface = low;
    let held = 0;
    while (held < litres && surface < top) { surface += step; held = below(columns, rise, box, surface); }
    const from = Math.min(held, litres);
    const stop = Math.max(heightAt(opening, heel, trim), heightAt(mouth, heel, trim));
    let sunk = surface;
    while (sunk > stop && held > 0) { sunk -= step; held = below(columns, rise, box, sunk); }
    return { surface, litres: Math.max(0, from - held) };
}
