import { ProseSection } from '../entry.tsx';
import { ENOUGH } from './enough.ts';

/** What the words mean, and how rows, hours and measures come about. */
export function MethodsWords() {
  return (
    <>
      <Words />
      <Rows />
      <Hours />
      <Measures />
    </>
  );
}

function Words() {
  return (
    <ProseSection id="words" heading="What do the words mean?">
      <dl>
        <dt>Bite</dt>
        <dd>A fish took, struck or crashed a bait, whatever came of it.</dd>
        <dt>Missed</dt>
        <dd>The hook never came tight.</dd>
        <dt>Hooked</dt>
        <dd>The hook came tight: lost, released or kept. Bites = missed + hooked.</dd>
        <dt>Lost</dt>
        <dd>Hooked, then off before the boat: pulled the hook, broke off, and so on.</dd>
        <dt>Caught</dt>
        <dd>
          Brought to the leader or the boat, then released or kept. Hooked = lost + caught, caught =
          released + kept.
        </dd>
        <dt>Line-hour</dt>
        <dd>One line fishing for one hour. Six lines out for two hours are twelve line-hours.</dd>
        <dt>Thin, hollow, grey</dt>
        <dd>
          A figure that rests on fewer than {ENOUGH.bites} bites (or hooked fish, where those are
          what it divides by) or fewer than {ENOUGH.trips} trips. It is shown and never ranked.
          Common practice, no source.
        </dd>
      </dl>
    </ProseSection>
  );
}

function Rows() {
  return (
    <ProseSection id="rows" heading="Which rows are counted?">
      <p>
        Every row that was read is used, used after a stated repair, used with a warning, or set
        aside, and the counts must add up: rows read = rows used + rows set aside. A row is set
        aside only where using it would be wrong. An empty cell means “not recorded” and is never
        read as zero.
      </p>
    </ProseSection>
  );
}

function Hours() {
  return (
    <ProseSection id="hours" heading="How are line-hours worked out?">
      <ol>
        <li>
          A soak’s hours run from its time in to its time out by real elapsed time, across midnight
          and clock changes.
        </li>
        <li>
          A line does not fish while a fish is on it: the fight time of each fish hooked on a soak
          comes off, whole, never below zero. The setting fight_clears widens this to the side or to
          all lines, or switches it off.
        </li>
        <li>
          Without soaks, a trip’s line-hours are its hours fished times its lines fished. Such
          figures are marked “assumed effort”. Without lines fished there are none.
        </li>
        <li>
          A bite takes its bait, line, hook and leader from its own cells, else from the soak open
          on its position at its minute, else (line only) from the spool on its rod that day.
        </li>
        <li>
          A bite that meets no line-hours still counts in shares of bites. It never enters a figure
          per line-hour; “effort cover” is the share of bites that do.
        </li>
      </ol>
    </ProseSection>
  );
}

function Measures() {
  return (
    <ProseSection id="measures" heading="What is divided by what?">
      <dl>
        <dt>Hooked, % of bites</dt>
        <dd>hooked ÷ bites</dd>
        <dt>Caught, % of hooked</dt>
        <dd>caught ÷ hooked</dd>
        <dt>Released, % of hooked</dt>
        <dd>released ÷ hooked</dd>
        <dt>Caught, % of bites</dt>
        <dd>caught ÷ bites</dd>
        <dt>Bites, hooked, caught or released per 10 line-hours</dt>
        <dd>
          those that met recorded line-hours ÷ all line-hours, times ten: the ratio of the totals,
          not the average of the trips’ own ratios. The share that met line-hours is the effort
          cover; where it is below 100 % the rate is a little low.
        </dd>
      </dl>
      <p>
        A missed bite has no sure species, so nothing that counts missed bites is given by species.
      </p>
    </ProseSection>
  );
}
