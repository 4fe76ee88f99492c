/** What a schematic's legend explains: the signs that are on the sheet, and no others. */
import type { Service } from '../../../model/boat';
import type { Entry } from '../legend';
import { lineStyle } from '../line-styles';
import { LOOK_WORDS, sampleOf } from '../marks';
import type { Look } from '../markup';
import { words } from '../svg';
import { SMALL, figuresOf } from './cells';
import type { Drawing } from './drawing';
import { arrow } from './symbols';

const ORDER: readonly Service[] = ['supply', 'return', 'transfer', 'vent', 'fill'];

export function entries({ services, signs, marks, boat }: Drawing): Entry[] {
    const looks = new Set<Look>([...marks.values()].flatMap((own) => own.map(({ as }) => as)));
    const said = new Set(boat.parts.flatMap((part) => part.kind === 'shutoff' ? figuresOf(part) : []));
    const letters = [['NO', 'normally open'], ['NC', 'normally shut'], ['LO', 'locked open']].filter(([sign]) => said.has(sign!));
    return [
        ...ORDER.filter((service) => services.has(service)).map((service) => ({ sample: `<path ${lineStyle(service)} d="M0 0H40"/>`, width: 40, says: service })),
        { sample: `<g transform="translate(25 0)">${arrow(true)}</g>`, width: 40, says: 'direction of flow; a figure under a pipe is its bore' },
        ...[...signs].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([says, sign]) => ({ ...sign, width: 40, says })),
        ...letters.map(([sign, says]) => ({ sample: words(sign!, { x: 20, y: 4, size: SMALL, anchor: 'middle' }), width: 40, says: says! })),
        ...(Object.keys(LOOK_WORDS) as Look[]).filter((look) => looks.has(look)).map((look) => ({ sample: look === 'live' || look === 'dead' ? `<path ${lineStyle('supply', look)} d="M0 0H40"/>` : `<g transform="translate(5 0)">${sampleOf(look)}</g>`, width: 40, says: LOOK_WORDS[look] })),
    ];
}

