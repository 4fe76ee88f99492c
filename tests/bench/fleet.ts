/** A workspace of many boats of one class, each in its own folder, and the patterns that they share. Every tenth has a slip in a name. */
import { readFileSync } from 'node:fs';

const file = (name: string): string => readFileSync(`examples/ottilwake/${name}`, 'utf8');

export function fleet(count: number): Readonly<Record<string, string>> {
    const texts: Record<string, string> = { 'shared/patterns.orlop': PATTERNS };
    const [boat, lines, upkeep] = [file('boat.orlop'), file('lines.orlop'), file('upkeep.orlop')];
    for (let n = 1; n <= count; n++) {
        const folder = `boat-${String(n).padStart(3, '0')}`;
        texts[`${folder}/boat.orlop`] = boat.replace('vessel Ottilwake "Ottilwake"', `vessel Ottilwake${n} "Ottilwake ${n}"`);
        texts[`${folder}/lines.orlop`] = filtersLike(lines).replace('from RUN   { V1 shut }', n % 10 === 0 ? 'from RUN   { V1 shut   V9 shut }' : '$&');
        texts[`${folder}/upkeep.orlop`] = upkeep;
    }
    return texts;
}

const filtersLike = (lines: string): string => lines
    .replace(/filter F1 primary in EngineBay \{[^}]*\}/, 'filter F1      like Bowl   in EngineBay   ports at 660 mm up, 3300 mm fwd, 300 mm port')
    .replace(/filter F2 final in EngineBay \{[^}]*\}/, 'filter F2      like Fine   in EngineBay   ports at 880 mm up, 3050 mm fwd, 150 mm port');

const PATTERNS = `pattern Bowl is filter primary {
  separates water   passes 10 um   rated 60 L/h   holds 450 mL   bowl 120 mL   metal shield
  lid at 40 mm over ports   drain at 180 mm under ports
  bleed BS   at 45 mm over ports   spanner 10 mm
  seals lid ring, T-ring, drain washer
  prefill allowed
}

pattern Fine is filter final {
  passes 5 um   holds 220 mL
  bleed BF   at 20 mm over ports   spanner 10 mm
  prefill not on the clean side
}
`;
