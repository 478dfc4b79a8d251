import * as v from 'valibot';

const Token = v.pipe(v.string(), v.regex(/^[0-9a-f]{24}$/));

/** What may stand in the ledger of a log's private folder. */
export const LedgerSchema = v.strictObject({
  schema: v.literal('linehours/ledger@1'),
  /** By trip token: the pseudonym of its vessel. */
  vessels: v.record(Token, Token),
  releases: v.array(
    v.strictObject({
      number: v.pipe(v.number(), v.integer(), v.minValue(1)),
      tier: v.picklist(['cells', 'trips']),
      /** Thresholds its groups meet; 1 vessel: the owner of the only boat consented. */
      min_vessels: v.pipe(v.number(), v.integer(), v.minValue(1)),
      min_trips: v.pipe(v.number(), v.integer(), v.minValue(1)),
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
export const EMPTY_LEDGER: Ledger = { schema: 'linehours/ledger@1', vessels: {}, releases: [] };

/** What is about to leave, as the ledger would note it. */
export interface NewRelease extends Pick<Release, 'tier' | 'min_vessels' | 'min_trips'> {
  readonly groups: readonly (readonly string[])[];
  /** By trip token: the pseudonym of its vessel. */
  readonly vessels: Readonly<Record<string, string>>;
}

/**
 * The ledger with a release added; the same groups once more keep their old number, as nothing new
 * is told.
 */
export function withRelease(
  ledger: Ledger,
  release: NewRelease,
): { readonly ledger: Ledger; readonly number: number } {
  const groups = release.groups.map((group) => [...group].sort()).sort(byText);
  const known = ledger.releases.find(
    (old) => old.tier === release.tier && JSON.stringify(old.groups) === JSON.stringify(groups),
  );
  if (known !== undefined) return { ledger, number: known.number };
  const number = ledger.releases.length + 1;
  const { tier, min_vessels, min_trips } = release;
  const releases = [...ledger.releases, { number, tier, min_vessels, min_trips, groups }];
  const vessels = { ...ledger.vessels, ...release.vessels };
  return { ledger: { ...ledger, vessels, releases }, number };
}

function byText(a: readonly string[], b: readonly string[]): number {
  const [first, second] = [a.join(), b.join()];
  return first < second ? -1 : first > second ? 1 : 0;
}
