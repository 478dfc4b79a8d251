/** What no advice on line may be read without. */
export const LINE_CAUTION =
  'What is said of line, hook and drag is about catch and cost. It says nothing about breaking strength under load or the safety of the crew.';

/** What every page says before anyone acts on it. Common practice, no source. */
export const CAUTIONS: readonly string[] = [
  'Catch per line-hour is the success of this boat with these lines. It does not count the fish in the sea.',
  'Released says that a fish was let go, not that it lived.',
  'How fish are handled and released, and which gear, sizes and seasons are allowed, is for the local regulations in force and the fishery authority to say. This report does not know them: check the current text.',
  LINE_CAUTION,
];
