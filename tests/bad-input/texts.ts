/** The sound texts that are then spoilt: the example boats, and a hulk that uses every construct. */
import { readFileSync, readdirSync } from 'node:fs';
import type { Boat, Id } from '../../src/model/boat';
import type { BleedRequest } from '../../src/procedures/bleed';

/** The files of a boat by name. */
export type Texts = Readonly<Record<string, string>>;

const EXAMPLES = new URL('../../examples/', import.meta.url);
const HULK = new URL('./hulk/', import.meta.url);

const textsOf = (folder: URL): Texts => Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).sort().map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]));

/** By the name of the folder. */
export const BOATS: ReadonlyMap<string, Texts> = new Map([
    ...readdirSync(EXAMPLES, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }): [string, Texts] => [name, textsOf(new URL(`${name}/`, EXAMPLES))]),
    ['hulk', textsOf(HULK)],
]);

/** What may be asked of every consumer: filters opened, or run dry. */
export const requestsOf = (boat: Boat): BleedRequest[] => boat.consumers.flatMap(({ id }) => [
    { engine: id, opened: filtersBefore(boat, id) }, { engine: id, opened: [], ranDry: true },
]);

/** Filters in courses that end at the consumer; where there are none, the first two of the boat. */
function filtersBefore(boat: Boat, consumer: Id): Id[] {
    const own = new Set(boat.courses.filter((course) => course.to.part === consumer).flatMap((course) => course.parts));
    const filters = boat.parts.filter((part) => part.kind === 'filter').map((part) => part.id);
    const before = filters.filter((id) => own.has(id));
    return before.length > 0 ? before : filters.slice(0, 2);
}

/** A boat without a fault of spelling, in which each slip is made alone; its file comes before that of the slip. */
export const SOUND = `vessel Hulk { space EngineBay }
tank T1 { pickup P1
  drop R1 }
engine E1 { injection rotary mechanical
  exhaust dry
  bleed BE1 }
selector SV1 { ports in, out, two
  position ONE joins in, out
  position TWO joins in, two }
supply course Feed from T1.P1 to E1 { shutoff V1
  filter F1 { bleed BF1 } }
return course Back from E1 to T1.R1 { hose }
line-up RUN run is normal
line-up SERVICE service from RUN { V1 shut }
`;
/** A course with one line in it, besides the sound boat. */
export const part = (text: string): string => `supply course More from T1 to E1 {\n  ${text}\n}\n`;
