/** The cells of a bite that its soak or its rod's spool may fill. */
export const FILLED_CELLS = [
  'bait',
  'rod',
  'line_type',
  'line_class_lb',
  'hook_size',
  'leader_lb',
] as const;
export type FilledCell = (typeof FILLED_CELLS)[number];
