/**
 * What is known of a fuel by its grade alone. The limits are those that others print of the standards; the standards themselves were not read.
 * What stands between them is an ordinary fuel of the kind, and says where it is from.
 */
import type { FuelGrade } from '../../model/boat';
import type { Estimate } from '../estimate';

export interface Grade {
    readonly name: FuelGrade | 'diesel';
    /** Whose limits the bands are. */
    readonly standard: string;
    /** kg/m³ at 15 °C. */
    readonly density: Estimate;
    /** m²/s at 40 °C. */
    readonly viscosity: Estimate;
    /** Walther's b: how steeply the viscosity falls with warmth. */
    readonly slope: number;
}

/** K, at which the standards limit viscosities. */
export const MEASURED_AT = 313.15;

/** Of a diesel of 4.0 mm²/s at 20 °C and 2.6 at 40 °C (common practice): 5.5 at 8 °C. */
const DIESEL_SLOPE = 3.9309902;

const mm2 = (si: number, least: number, most: number): Estimate => ({ si: si * 1e-6, least: least * 1e-6, most: most * 1e-6 });

export const GRADES: Readonly<Record<Grade['name'], Grade>> = {
    // EN 590, temperate: 820 to 845 and 2.00 to 4.50 in several printed tables. 840 and 2.6: common practice.
    diesel: { name: 'diesel', standard: 'EN 590', density: { si: 840, least: 820, most: 845 }, viscosity: mm2(2.6, 2, 4.5), slope: DIESEL_SLOPE },
    // The same limits. 840 and 3.0: from memory.
    'summer diesel': { name: 'summer diesel', standard: 'EN 590', density: { si: 840, least: 820, most: 845 }, viscosity: mm2(3, 2, 4.5), slope: DIESEL_SLOPE },
    // EN 590, arctic: from 800 in all classes; down to 1.50 in classes 0 to 2, 1.40 in 3, 1.20 in 4, in a printed table. Winter grades of temperate places
    // keep to 845 and 4.50 (815 to 845 in the Austrian Kraftstoffverordnung for the classes E and F): the bands hold both. 830 and 2.2: from memory.
    'winter diesel': { name: 'winter diesel', standard: 'EN 590, arctic classes too', density: { si: 830, least: 800, most: 845 }, viscosity: mm2(2.2, 1.2, 4.5), slope: DIESEL_SLOPE },
    // EN 15940, class A: 765 to 800 in a dealer's table; 2.00 to 4.50 from memory (dealers print 2.0 to 4.0). 780 and 2.8 are printed as typical. The slope is
    // common practice: n-hexadecane, a paraffin as thick, has 3.3 to 3.4 by two data books; branched ones fall a little more steeply.
    'renewable diesel': { name: 'renewable diesel', standard: 'EN 15940, in part from memory', density: { si: 780, least: 765, most: 800 }, viscosity: mm2(2.8, 2, 4.5), slope: 3.5 },
    // EN 16709, B20 and B30, in annex VIIIc of the Austrian Kraftstoffverordnung: 820 to 860 and 2.000 to 4.620, 825 to 865 and 2.000 to 4.650. The middle is 75
    // parts of the diesel above and 25 of an ester of 880 and 4.5 (EN 14214, in annex VI: 860 to 900 and 3.50 to 5.00): 850, and by logarithms (Arrhenius) 2.98.
    // The slope is common practice: esters have about 3.4, from memory.
    'biodiesel blend': { name: 'biodiesel blend', standard: 'EN 16709', density: { si: 850, least: 820, most: 865 }, viscosity: mm2(3, 2, 4.65), slope: 3.8 },
};
