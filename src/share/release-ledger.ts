import * as v from 'valibot';

const Token = v.pipe(v.string(), v.regex(/^[0-9a-f]{24}$/));
const CountFromOne = v.pipe(v.number(), v.integer(), v.minValue(1));

/** Pseudonyms of a trip: its vessel, its id, and all that it adds to a sum. */
const TripNamesSchema = v.strictObject({ vessel: Token, id: Token, content: Token });
/** Pseudonyms by which a trip is known again, though its id or its figures were changed since. */
export type TripNames = v.InferOutput<typeof TripNamesSchema>;

/** What may stand in the ledger of a log's private folder. */
export const LedgerSchema = v.strictObject({
  schema: v.literal('linehours/ledger@2'),
  /** By trip token. */
  trips: v.record(Token, TripNamesSchema),
  releases: v.array(
    v.strictObject({
      number: CountFromOne,
      tier: v.picklist(['cells', 'trips']),
      /** Thresholds its groups meet; 1 vessel: the owner of the only boat consented. */
      min_vessels: CountFromOne,
      min_trips: CountFromOne,
      /** null: its counts are exact. */
      noise: v.nullable(v.strictObject({ epsilon: v.number(), clip: CountFromOne })),
      /** The finest groups of trips whose sums a reader of the package holds or can work out. */
      groups: v.array(v.array(Token)),
    }),
  ),
});

/**
 * The account of every package that left, kept in the owner's folder. A trip stands in it as a token
 * of what it would show: a trip that was corrected since is another token.
 */
export type Ledger = v.InferOutput<typeof LedgerSchema>;
/** One package in the account. */
export type Release = Ledger['releases'][number];

/** The account before anything has left. */
export const EMPTY_LEDGER: Ledger = { schema: 'linehours/ledger@2', trips: {}, releases: [] };

/** What is about to leave, as the ledger would note it. */
export interface NewRelease extends Omit<Release, 'number' | 'groups'> {
  readonly groups: readonly (readonly string[])[];
  /** By trip token. */
  readonly trips: Readonly<Record<string, TripNames>>;
}

/**
 * The ledger with a release added; the same groups once more, under the same noise, keep their old
 * number, as nothing new is told.
 */
export function withRelease(
  ledger: Ledger,
  release: NewRelease,
): { readonly ledger: Ledger; readonly number: number } {
  const { trips, ...noted } = release;
  const groups = release.groups.map((group) => [...group].sort()).sort(byText);
  const contentKey = ({ tier, noise }: Omit<Release, 'number' | 'groups'>, sorted: Groups) =>
    JSON.stringify([tier, noise?.epsilon, noise?.clip, sorted]);
  const known = ledger.releases.find(
    (old) => contentKey(old, old.groups) === contentKey(release, groups),
  );
  if (known !== undefined) return { ledger, number: known.number };
  const number = ledger.releases.length + 1;
  const releases = [...ledger.releases, { ...noted, number, groups }];
  return { ledger: { ...ledger, trips: { ...ledger.trips, ...trips }, releases }, number };
}

type Groups = Release['groups'];

function byText(a: readonly string[], b: readonly string[]): number {
  const [first, second] = [a.join(), b.join()];
  return first < second ? -1 : first > second ? 1 : 0;
}
