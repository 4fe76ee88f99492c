import type { Carries } from '../../model/boat';
export const fluidOf = (_: Carries | undefined) => ({ density: 840 });
