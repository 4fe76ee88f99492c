/** Recipes of what is done with the boat rather than to a part; each knows its jobs by words that no other has, so they are asked first. */
import type { Recipe } from './recipe';
import { duplex } from './duplex';
import { holdTest } from './hold-test';
import { jug } from './jug';
import { layUp, recommission } from './lay-up';
import { polish } from './polish';
import { remoteShutoff } from './remote-shutoff';
import { runDry } from './run-dry';
import { transfer } from './transfer';

export const OPERATIONS: readonly Recipe[] = [transfer, polish, duplex, jug, runDry, remoteShutoff, holdTest, layUp, recommission];
