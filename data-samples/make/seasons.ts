import { LINNET_QUAY, SABLE_ROADS } from './neighbours.ts';
import { PORT_VELLAMY } from './port-vellamy.ts';
import type { World } from './world.ts';

/** Folder under `data-samples/` → the world its season is drawn from. */
export const SEASONS: Readonly<Record<string, World>> = {
  'port-vellamy': PORT_VELLAMY,
  'linnet-quay': LINNET_QUAY,
  'sable-roads': SABLE_ROADS,
};
