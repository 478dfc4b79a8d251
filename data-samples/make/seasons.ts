import { PORT_VELLAMY } from './port-vellamy.ts';
import type { World } from './world.ts';

/** Folder under `data-samples/` → the world its season is drawn from. */
export const SEASONS: Readonly<Record<string, World>> = { 'port-vellamy': PORT_VELLAMY };
