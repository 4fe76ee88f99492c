/** The one table of recipes. Of several that fit a job the first is asked. */
import { OPERATIONS } from './recipes/operations';
import { CONSUMER } from './recipes/consumer';
import { FILTER } from './recipes/filter';
import { GAUGE } from './recipes/gauge';
import { HOSE } from './recipes/hose';
import { NOTHING } from './recipes/nothing';
import { PUMP } from './recipes/pump';
import { TANK } from './recipes/tank';
import { VALVE } from './recipes/valve';
import { WATER } from './recipes/water';
import type { Recipe } from './recipes/recipe';

export const RECIPES: readonly Recipe[] = [
    ...OPERATIONS, ...FILTER, ...WATER, ...HOSE, ...PUMP, ...VALVE, ...GAUGE, ...TANK, ...CONSUMER,
    ...NOTHING,
];
