/**
 * The volume of a tank below a level plane by adding up thin columns, in mm and litres. It knows nothing of the program: the tank is cut into
 * slices across the boat, each slice into upright columns, and of each column the part below the plane is counted.
 */
export interface Slice {
    readonly fwd: number;
    /** Corners in order: up, stbd. */
    readonly corners: readonly (readonly [number, number])[];
}

export function litresByColumns(sections: readonly Slice[], height: number, heel: number, trim: number, fine = 240): number {
    let sum = 0;
    for (let k = 0; k + 1 < sections.length; k++) {
        const [aft, fore] = [sections[k]!, sections[k + 1]!];
        const step = (fore.fwd - aft.fwd) / fine;
        for (let i = 0; i < fine; i++) {
            const share = (i + 0.5) / fine;
            const x = aft.fwd + share * (fore.fwd - aft.fwd);
            const corners = aft.corners.map(([up, stbd], c) => [up + share * (fore.corners[c]![0] - up), stbd + share * (fore.corners[c]![1] - stbd)] as const);
            sum += step * sliceBelow(corners, (y) => (height + y * Math.sin(heel) * Math.cos(trim) - x * Math.sin(trim)) / (Math.cos(heel) * Math.cos(trim)), fine);
        }
    }
    return sum / 1e6;
}

/** mm² of a slice below a line, the height of which is given across the boat. */
function sliceBelow(corners: readonly (readonly [number, number])[], line: (y: number) => number, fine: number): number {
    const sides = corners.map(([, y]) => y);
    const [port, stbd] = [Math.min(...sides), Math.max(...sides)];
    const step = (stbd - port) / fine;
    let area = 0;
    for (let j = 0; j < fine; j++) {
        const y = port + (j + 0.5) * step;
        const crossings = corners.flatMap(([z1, y1], c) => {
            const [z2, y2] = corners[(c + 1) % corners.length]!;
            return (y1 <= y) === (y2 <= y) ? [] : [z1 + ((y - y1) / (y2 - y1)) * (z2 - z1)];
        }).sort((a, b) => a - b);
        // From below: in at the first, out at the second, and so on.
        for (let c = 0; c + 1 < crossings.length; c += 2) area += step * Math.max(0, Math.min(crossings[c + 1]!, line(y)) - crossings[c]!);
    }
    return area;
}
