import { ProseSection } from '../entry.tsx';

/** How fight times, the minutes of a trip, hook places and conditions come about. */
export function MethodsTime() {
  return (
    <>
      <FightTime />
      <Minutes />
      <HookPlace />
      <Conditions />
    </>
  );
}

function FightTime() {
  return (
    <ProseSection id="fight-time" heading="How long is a fight?">
      <p>
        The median is the time by which half of the fish would be at the boat. A fish that was lost
        would have taken at least as long as it was on, so it counts up to then (Kaplan & Meier
        1958); this takes it that fish are not lost because their fight would have been long. Limits
        are on the log-log scale, with the spread between trips in them (Williams 1995, quoted from
        memory); those of the median are read off the curve’s own (Brookmeyer & Crowley 1982). There
        is no published limit in minutes for a fish’s good: none is drawn.
      </p>
    </ProseSection>
  );
}

function Minutes() {
  return (
    <ProseSection id="minutes" heading="Where do the minutes of a trip go?">
      <p>
        Every position that fished on a trip has the time from lines in to lines out. Of it, the
        bait was in the water and no fish on (its line-hours), a fish was on (what fight_clears
        takes off), the line was out between two soaks, or it was before the first soak or after the
        last. Shares are ratios of the totals over trips, their intervals t times the CR2 error.
        Trips without a clock time of lines in, lines out or any soak are left out.
      </p>
    </ProseSection>
  );
}

function HookPlace() {
  return (
    <ProseSection id="hook-place" heading="Where was it hooked, and how did it go back?">
      <p>
        Shares of the fish whose cell is filled: hooked_in (corner, mouth, deep, foul) and
        release_condition (strong, tired, bleeding, dead). Drop-back times are cut as in Prince and
        others 2007 (0–5, 6–10, 11–15, over 15 s); the cuts of fight time are common practice, no
        source. A share that is none or all borrows how alike fish of one trip are from the whole
        log.
      </p>
      <p>
        Published orders of size, each from a fishery of its own: deep hooks were 2 % on circle and
        46 % on J hooks in 360 sailfish (Prince, Ortiz & Venizelos 2002). Of 61 striped marlin
        caught on live bait and followed by tags, 16 died, all within five days (Domeier, Dewar &
        Nasby-Lucas 2003); over 46 studies of billfish the share was 13.5 % (10.3–17.6; Musyl and
        others 2015). None of this is a figure of this boat.
      </p>
    </ProseSection>
  );
}

function Conditions() {
  return (
    <ProseSection id="conditions" heading="When does a condition stand out?">
      <p>
        Wind by Beaufort force, sea by the states of WMO code table 3700, current in half knots,
        water temperature in whole degrees Celsius (wider where the log spans many), the moon in
        eighths of its cycle. Each is one value a trip. The bites of each trip are modelled as
        Poisson with its line-hours as exposure and the condition’s levels, those with five trips
        and a bite; errors are by trip (CR2) and all levels are tested at once in the form for few
        trips (Pustejovsky & Tipton 2018). The chances of all conditions are then corrected for
        their number (Benjamini & Hochberg 1995). Beside it stands the same test with months held
        equal, since a condition that goes with the season shows the season too.
      </p>
    </ProseSection>
  );
}
