import { ProseSection } from '../entry.tsx';
import { intervalWords, type ReportContext } from './report-context.ts';

/** How intervals are made, what they promise, and where they fall short. */
export function MethodsIntervals({ context }: { readonly context: ReportContext }) {
  return (
    <>
      <Bracket context={context} />
      <ShareInterval />
      <RateInterval />
      <Limits />
      <TiedAndSame />
    </>
  );
}

function Bracket({ context }: { readonly context: ReportContext }) {
  return (
    <ProseSection id="interval" heading="What does the bracket say?">
      <p>
        62 % (54–69) reads: 62 in 100 in this log. The bracket is a {intervalWords(context)} for the
        share in the long run: were many such seasons fished and the bracket worked out each time,
        about that many of 100 brackets would hold the true value. What lies in the middle is better
        supported than the ends. It is no forecast of the next season.
      </p>
      <p>
        Fish of one day are alike: same water, same crew, same mood. So the trip is what is
        repeated, not the bite, and a figure from 100 bites of 3 trips has a wider bracket than one
        from 100 bites of 30 trips.
      </p>
    </ProseSection>
  );
}

const SHARE_FORMULA = [
  'h = n ÷ N                 the weight of a trip',
  'r = x − p·n               what it had over its share',
  'v = Σ r² ÷ (1 − h) ÷ N²   the variance of p, by trip (CR2)',
  'd = the larger of 1 and v ÷ (p(1 − p) ÷ N)   the design effect',
  'interval: Wilson’s for p from N ÷ d bites, with Student’s t',
].join('\n');

function ShareInterval() {
  return (
    <ProseSection id="share" heading="How is the interval of a share made?">
      <p>
        Name in the tables of results: <code>wilson-trip</code>. For trips i with n bites of which x
        count, N all bites, X all that count, p = X ÷ N:
      </p>
      <pre>{SHARE_FORMULA}</pre>
      <p>
        The degrees of freedom of t follow from how evenly the bites spread over the trips; equal
        trips give one less than their number. Where all or none count, the group shows no spread of
        its own: it borrows how alike the bites of one trip are in the whole log, and the interval
        is the exact binomial one (Clopper–Pearson) on N ÷ d. With one trip it is Wilson’s plain
        interval, and marked. On request, each taking every bite for itself: <code>wilson</code>,{' '}
        <code>clopper-pearson</code>, <code>jeffreys</code>, <code>agresti-coull</code>.
      </p>
    </ProseSection>
  );
}

const RATE_FORMULA = [
  'h = e ÷ E',
  'r = c − R·e',
  'v = Σ r² ÷ (1 − h) ÷ E²',
  'D = the larger of 1 and v ÷ (R ÷ E), times (t ÷ z)²',
  'interval: the exact Poisson one (Garwood)',
  '          for C ÷ D events in E ÷ D line-hours',
].join('\n');

function RateInterval() {
  return (
    <ProseSection id="rate" heading="How is the interval of a rate per line-hour made?">
      <p>
        Name in the tables of results: <code>ratio-trip</code>. For trips i with c events in e
        line-hours, C and E their totals, R = C ÷ E:
      </p>
      <pre>{RATE_FORMULA}</pre>
      <p>
        t and z are the limits of Student’s and the normal distribution at the same level. With no
        events, or one trip, it is the exact Poisson interval on E, and marked. On request:{' '}
        <code>garwood</code> (every event for itself), <code>ratio-log-t</code> and{' '}
        <code>bootstrap-bca</code> (trips drawn again and again, seeded).
      </p>
    </ProseSection>
  );
}

function Limits() {
  return (
    <ProseSection id="limits" heading="Where do these intervals fall short?">
      <p>
        They were tried on simulated seasons whose truth was known. The 95 % interval of a share
        held the truth in 94.5 to 98.9 % of seasons of 15 trips, and in 94.0 to 97.0 % of seasons of
        30. In small groups it is a little too wide rather than too narrow, because the design
        effect may not fall below 1 and t takes the place of z.
      </p>
      <p>
        An interval speaks of chance alone. It knows nothing of bites that were not written down, of
        a bait fished only on good days, or of a line only ever fished on the long kite. Two
        intervals that overlap do not show that two things are alike, and of many levels looked at
        together some will stand apart by luck.
      </p>
    </ProseSection>
  );
}

function TiedAndSame() {
  return (
    <>
      <ProseSection id="tied" heading="What if two things always go together?">
        <p>
          Where all braid was fished on one position, or all mono in one month, no sum can tell the
          line from the place or the month. The cross-tables show such gaps as a dash. Fish both on
          the same day, side by side, and the log can tell them apart.
        </p>
      </ProseSection>
      <ProseSection id="same" heading="Will the same log give the same report?">
        <p>
          Yes, byte for byte: same files, same settings, same seed. Nothing depends on the machine,
          its clock or its language, and nothing is fetched from anywhere.
        </p>
      </ProseSection>
    </>
  );
}
