/** The one table of rules, in the order in which they are told. */
import type { Check } from './check';
import { bleedDrive } from './rules/bleed-drive';
import { checkDir } from './rules/check-dir';
import { filterOrder } from './rules/filter-order';
import { lineupNamed } from './rules/lineup-named';
import { noUnfiltered } from './rules/no-unfiltered';
import { pathOne } from './rules/path-one';
import { portOnce } from './rules/port-once';
import { returnNoBlock } from './rules/return-no-block';
import { shutAtTank } from './rules/shut-at-tank';
import { shutoffBeforeFilter } from './rules/shutoff-before-filter';
import { tagUnique } from './rules/tag-unique';
import { ventArea } from './rules/vent-area';
import { ventExists } from './rules/vent-exists';

export const RULES: readonly Check[] = [
    shutAtTank, shutoffBeforeFilter, returnNoBlock, pathOne, checkDir, noUnfiltered, portOnce, ventExists, ventArea,
    filterOrder, bleedDrive, lineupNamed, tagUnique,
];
