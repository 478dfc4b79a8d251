import { LIVE_BAIT_CAUTION } from '../../decide/load-notes.ts';
import { FEWEST_BREAKS } from '../../decide/respool-age.ts';
import { ProseSection } from '../entry.tsx';

/** How line wear, respool ages, bait yields and loads come about. */
export function MethodsMoney() {
  return (
    <>
      <Wear />
      <Respool />
      <Bait />
      <Load />
    </>
  );
}

function Wear() {
  return (
    <ProseSection id="wear" heading="How is the wear of line told?">
      <p>
        The age of a line is what it has been through since its reel was filled: trips on which the
        rod was out, line-hours, and fights (hooked fish, the fish itself counted). A line that
        breaks is retied and is as old as before, so breaks on one spool are a repairable system: by
        an age of t fights a spool is expected to have broken (t ÷ θ)<sup>β</sup> times (a power-law
        process, Crow 1974). Ages are whole fights, so the a-th fight breaks with chance (a ÷ θ)
        <sup>β</sup> − ((a − 1) ÷ θ)<sup>β</sup>; all spools of a line type are fitted together by
        maximum likelihood, and the interval of β is where the likelihood has not fallen too far
        (profile likelihood). β above 1: it wears.
      </p>
      <p>
        First breaks: the share of spools without one (Kaplan & Meier 1958, limits on the log-log
        scale), compared by the log-rank test (Mantel 1966). Pulled hooks and bites hooked: a
        logistic line on the age in fights, errors by trip (CR2).
      </p>
      <p>
        Tried on simulated seasons of 60 and 120 trips whose wear was known, 500 of each kind: the
        95 % interval of β held the truth in 93 to 97 %, the respool age missed it by 7 to 16 %
        (median), and where line did not wear at all an age was named in 3 %.
      </p>
    </ProseSection>
  );
}

function Respool() {
  return (
    <ProseSection id="respool" heading="How is the respool age found?">
      <pre>
        {`cost a fight = (filling + lost fish × (T ÷ θ)^β) ÷ T     when respooled after T fights
least at T = θ × (filling ÷ (lost fish × (β − 1)))^(1 ÷ β)`}
      </pre>
      <p>
        (Barlow & Hunter 1960, minimal repair.) The interval is from seasons drawn again and again
        from the log’s own trips. The cost is often flat around the best age, so the ages within 5 %
        of the least cost stand beside it. With fewer than {FEWEST_BREAKS} breaks, or where the
        interval of β reaches down to 1, no age is named. Prices: costs.spool and costs.lost_fish in
        season.yaml, or the median paid for fillings in spools.csv.
      </p>
      <p>
        Season costs are told for all fights of the log on one line type alone, so that line types
        can be compared; one that hooks fewer fish also fights fewer, which this does not count.
      </p>
    </ProseSection>
  );
}

function Bait() {
  return (
    <ProseSection id="bait" heading="What does a bait bring, and what does a fish cost?">
      <p>
        Per line-hour: as for every rate. Per bait: fish over baits used (put out, or died before),
        the ratio of the totals with trips as clusters. Cost of a fish: the bait’s mean price over
        the log divided by fish per bait, so its interval is that of the catch; on baits bought it
        is dearer by what was left over. Adjusted: the log-linear model of the standardised index,
        by bait, with reach and month held equal. Ranking: by fish caught per line-hour, drawn
        towards the common rate.
      </p>
    </ProseSection>
  );
}

function Load() {
  return (
    <ProseSection id="load" heading="How is the load worked out?">
      <p>
        Use of a bait on a trip (put out + died) over all trips that have soaks, those without it
        included, is taken as negative binomial; where the well ran out, use is “at least so many”
        (Conrad 1976). The law is averaged over every mean and spread that the log leaves possible.
        The load is the smallest that is enough with chance
      </p>
      <pre>{'bait too few ÷ (bait too few + bait left over)'}</pre>
      <p>
        of the two costs in season.yaml (costs.bait_short and costs.bait_left; Arrow, Harris &
        Marschak 1951). A load of none is an answer. Within a well or a purse, baits are shared out
        so that the expected cost is least. Where a bait ran out so often that the log has no end of
        its need, the load is held to twice the most ever aboard, and said so.
      </p>
      <p>{LIVE_BAIT_CAUTION}</p>
    </ProseSection>
  );
}
