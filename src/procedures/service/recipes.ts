/** The one table of recipes. Of several that fit a job the first is asked. */
import type { Recipe } from './recipes/recipe';

export const RECIPES: readonly Recipe[] = [
];
