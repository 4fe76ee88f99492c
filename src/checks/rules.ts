/** The one table of rules, in the order in which they are told. */
import type { Check } from './check';
import { bleedAtHigh } from './rules/bleed-at-high';
import { bleedDrive } from './rules/bleed-drive';
import { bleedNotSuction } from './rules/bleed-not-suction';
import { boreVelocity } from './rules/bore-velocity';
import { bypassCheck } from './rules/bypass-check';
import { checkCrack } from './rules/check-crack';
import { checkDir } from './rules/check-dir';
import { daytankHeat } from './rules/daytank-heat';
import { deadleg } from './rules/deadleg';
import { drainHead } from './rules/drain-head';
import { drainPlugged } from './rules/drain-plugged';
import { drainback } from './rules/drainback';
import { duplexIsolate } from './rules/duplex-isolate';
import { expansion } from './rules/expansion';
import { filterFlow } from './rules/filter-flow';
import { filterOrder } from './rules/filter-order';
import { filterOversize } from './rules/filter-oversize';
import { filterTwo } from './rules/filter-two';
import { fittingBore } from './rules/fitting-bore';
import { footCheck } from './rules/foot-check';
import { headOnOpen } from './rules/head-on-open';
import { hoseAge } from './rules/hose-age';
import { hoseFire } from './rules/hose-fire';
import { isolateFilterIn } from './rules/isolate-filter-in';
import { isolateFilterOut } from './rules/isolate-filter-out';
import { liftStatic } from './rules/lift-static';
import { lineupNamed } from './rules/lineup-named';
import { loopNotBreak } from './rules/loop-not-break';
import { noHump } from './rules/no-hump';
import { noOrphan } from './rules/no-orphan';
import { noUnfiltered } from './rules/no-unfiltered';
import { overflowCap } from './rules/overflow-cap';
import { pathOne } from './rules/path-one';
import { pickupHeel } from './rules/pickup-heel';
import { pickupRank } from './rules/pickup-rank';
import { polishTurnover } from './rules/polish-turnover';
import { portOnce } from './rules/port-once';
import { posHeadLimit } from './rules/pos-head-limit';
import { prefillPolicy } from './rules/prefill-policy';
import { primerPressure } from './rules/primer-pressure';
import { primerReach } from './rules/primer-reach';
import { primerStrokes } from './rules/primer-strokes';
import { pumpOffPath } from './rules/pump-off-path';
import { pumpSeries } from './rules/pump-series';
import { reserve } from './rules/reserve';
import { returnBackpressure } from './rules/return-backpressure';
import { returnNoBlock } from './rules/return-no-block';
import { returnOverflow } from './rules/return-overflow';
import { returnShutIfLow } from './rules/return-shut-if-low';
import { returnSubmerged } from './rules/return-submerged';
import { sharedArea } from './rules/shared-area';
import { shutAtTank } from './rules/shut-at-tank';
import { shutoffBeforeFilter } from './rules/shutoff-before-filter';
import { singlePoint } from './rules/single-point';
import { siphonBreak } from './rules/siphon-break';
import { suctionBudget } from './rules/suction-budget';
import { supplyReturnMatch } from './rules/supply-return-match';
import { tagUnique } from './rules/tag-unique';
import { taskSet } from './rules/task-set';
import { unitOk } from './rules/unit-ok';
import { ventAboveFill } from './rules/vent-above-fill';
import { ventArea } from './rules/vent-area';
import { ventExists } from './rules/vent-exists';
import { ventHeel } from './rules/vent-heel';
import { ventSelfDrain } from './rules/vent-self-drain';
import { xferUllage } from './rules/xfer-ullage';
import { xoverTwoValves } from './rules/xover-two-valves';
import { zKnown } from './rules/z-known';

export const RULES: readonly Check[] = [
    // isolation
    shutAtTank, shutoffBeforeFilter, isolateFilterIn, isolateFilterOut, xoverTwoValves, returnNoBlock, drainPlugged,
    // what runs when it is opened, or when it fails
    headOnOpen, drainHead, siphonBreak, returnShutIfLow, loopNotBreak, drainback, footCheck,
    // ways
    pathOne, supplyReturnMatch, returnOverflow, checkDir, bypassCheck, pumpOffPath, portOnce, singlePoint, deadleg,
    // flow and pressure
    liftStatic, suctionBudget, boreVelocity, fittingBore, sharedArea, checkCrack, returnBackpressure, posHeadLimit, pumpSeries, primerPressure,
    // filters
    noUnfiltered, filterTwo, filterOrder, filterFlow, filterOversize, duplexIsolate, prefillPolicy,
    // bleeding
    bleedDrive, bleedNotSuction, bleedAtHigh, noHump, primerReach, primerStrokes,
    // tanks and hoses
    ventExists, ventArea, ventHeel, ventAboveFill, ventSelfDrain, pickupHeel, pickupRank, returnSubmerged, expansion, overflowCap, daytankHeat, hoseFire, hoseAge,
    // time
    reserve, xferUllage, polishTurnover,
    // the model and its papers
    lineupNamed, taskSet, noOrphan, zKnown, unitOk, tagUnique,
];
