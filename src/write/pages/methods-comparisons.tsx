import { ProseSection } from '../entry.tsx';

/** How comparisons, verdicts, rankings and the standardised index come about. */
export function MethodsComparisons() {
  return (
    <>
      <Lenses />
      <Verdicts />
      <EveryDay />
      <Together />
      <ProseSection id="ranking" heading="How are many options ranked?">
        <p>
          A bait with three bites in one lucky hour should not top the table. Each figure is drawn
          towards the common one by how little it rests on (beta–binomial for shares, gamma–Poisson
          for rates, fitted to all options together on counts divided by their design effect). The
          chance of being truly the best comes from the same fit. Last season’s best usually falls
          back.
        </p>
      </ProseSection>
      <ProseSection id="index" heading="What does “standardised” mean, month by month?">
        <p>
          A log-linear model of the count on each soak (negative binomial, line-hours as exposure)
          with month, reach, bait and wind. Each month is predicted on the log’s own mix of
          everything else, and the months are set against their mean. Errors are by trip (CR3 × (G −
          1) ÷ G, Satterthwaite degrees of freedom); with fewer than 4 degrees of freedom no
          interval is given. It is the success of this boat, not the number of fish in the sea.
        </p>
      </ProseSection>
    </>
  );
}

function Lenses() {
  return (
    <ProseSection id="lenses" heading="What are the three lenses?">
      <p>
        <strong>As logged</strong>: all bites on A against all bites on B, whatever else differed.
        The two intervals are combined by square-and-add, with the correlation that trips with both
        bring (left out where only two or three trips have both).
      </p>
      <p>
        <strong>Same day</strong>: only trips that fished both, each compared with itself and
        weighed by n₁n₂ ÷ (n₁ + n₂) (Mantel–Haenszel); the error comes from how the trips differ.
        Nothing that stays the same all trip can explain such a difference. Hour, bait and where on
        the boat each was fished still can.
      </p>
      <p>
        <strong>Adjusted</strong>: a logistic model of the share (log-linear for a rate) with reach,
        bait, month and wind beside A and B. Every bite is set to A, then to B, and averaged, so it
        reads in percentage points. Errors are by trip (CR2, Satterthwaite degrees of freedom). A
        level in which all or none were hooked is set aside and named. Where a combination goes all
        one way, a penalised fit (Firth) takes over and is named.
      </p>
      <p>
        A difference that no lens can reach is named <em>tied</em>: where A and B were never fished
        at one level of something else, such as one month, the log cannot say which of the two made
        the difference.
      </p>
    </ProseSection>
  );
}

function Verdicts() {
  return (
    <ProseSection id="verdicts" heading="What do the verdicts mean?">
      <p>
        The verdict rests on the most careful lens that stands: adjusted, else same day, else as
        logged.
      </p>
      <dl>
        <dt>clear</dt>
        <dd>The whole interval lies on one side of “no difference”.</dd>
        <dt>alike</dt>
        <dd>
          The whole interval lies inside the practical margin (5 points of a share, a tenth of a
          rate, unless set otherwise): whatever difference there is does not matter.
        </dd>
        <dt>open</dt>
        <dd>
          Neither yet. The number of further bites and trips is what would settle a difference as
          large as the margin: two-sided 5 %, power 80 %, A and B in the log’s own proportion, times
          the design effect of this comparison. Open too, with no such number, where one of the two
          has nothing to set against the other: no bite, say.
        </dd>
        <dt>tied</dt>
        <dd>A and B were never fished apart from something else.</dd>
        <dt>ranked</dt>
        <dd>
          As logged, with nothing held equal: no verdict, only which stands first and how probably
          it is the best of those listed.
        </dd>
        <dt>advice</dt>
        <dd>What costs least by this log and the prices in the settings.</dd>
        <dt>too thin</dt>
        <dd>Too few bites, trips or kinds to ask.</dd>
      </dl>
    </ProseSection>
  );
}

function EveryDay() {
  return (
    <ProseSection id="every-day" heading="May I look every day?">
      <p>
        An interval made to be read once is wrong more often than it says when it is read every
        week. The band “as the season went on” holds at every look together: it is made of bets
        against each possible difference, trip by trip, on the trips that fished both (a
        time-uniform confidence sequence). It is wider. Where it leaves out “no difference”, that
        was allowed to be seen on that day. For rates no such band is known that holds, so none is
        drawn.
      </p>
    </ProseSection>
  );
}

function Together() {
  return (
    <ProseSection id="together" heading="How are more than two compared?">
      <p>
        All levels with at least 10 bites over 5 trips stand in one adjusted model. A joint test
        (Wald, errors by trip, read as an approximate Hotelling T²) asks of the odds whether all are
        alike. Every pair has its difference; a pair stands apart when its p, raised by Holm’s rule
        for the number of pairs looked at, is at most 5 %. The limits “all hold together” are
        Bonferroni’s: wider, so that with 95 % none of them misses. Holm’s rule is a little sharper
        than they are. Whether a difference is the same at every reach or in every wind is asked of
        the same model with the difference free to vary; with many such tables, one will show
        something by luck alone.
      </p>
    </ProseSection>
  );
}
