import { ProseSection } from '../entry.tsx';

const SOURCES: readonly string[] = [
  'Bell & McCaffrey 2002, Survey Methodology 28: variance and degrees of freedom from few clusters.',
  'Benjamini & Hochberg 1995, JRSS B 57: allowance for many tests in one table.',
  'Cochran 1977, Sampling Techniques, chapter 6: ratio of totals.',
  'Breslow & Day 1980, Statistical Methods in Cancer Research, volume 1: stratified tables.',
  'Clopper & Pearson 1934, Biometrika 26: exact interval of a share.',
  'Dean & Pagano 2015, Journal of Survey Statistics and Methodology 3: intervals of shares from clustered data.',
  'Dunn & Smyth 1996, Journal of Computational and Graphical Statistics 5: randomised quantile residuals.',
  'Fay & Feuer 1997, Statistics in Medicine 16: exact-type intervals of weighted rates.',
  'Firth 1993, Biometrika 80: penalised fit where maximum likelihood runs off.',
  'Fleiss 1981, Statistical Methods for Rates and Proportions: sample sizes.',
  'Garwood 1936, Biometrika 28: exact interval of a Poisson count.',
  'Hoenig, Jones, Pollock, Robson & Wade 1997, Biometrics 53: catch rates from angler surveys.',
  'Holm 1979, Scandinavian Journal of Statistics 6: allowance for looking at every pair.',
  'Howard, Ramdas, McAuliffe & Sekhon 2021, Annals of Statistics 49; Waudby-Smith & Ramdas 2024, JRSS B 86: intervals that may be read at every look.',
  'Korn & Graubard 1998, Survey Methodology 24: intervals from an effective sample size.',
  'Kott & Carr 1997, Journal of Official Statistics 13: intervals of shares from surveys.',
  'Mantel & Haenszel 1959, Journal of the National Cancer Institute 22: weights of strata.',
  'Maunder & Punt 2004, Fisheries Research 70; Hoyle and others 2024, Fisheries Research 269: standardised catch per effort.',
  'Newcombe 1998, Statistics in Medicine 17; Zou & Donner 2008, Statistics in Medicine 27; Zou 2007, Psychological Methods 12: square-and-add.',
  'Prince, Ortiz & Venizelos 2002, American Fisheries Society Symposium 30: hooked ÷ bites and caught ÷ hooked as measures.',
  'Pustejovsky & Tipton 2018, Journal of Business & Economic Statistics 36: errors from few clusters in a model.',
  'Wilson 1927, Journal of the American Statistical Association 22: score interval of a share.',
];

/** Where the methods come from, and what must be said about handling fish. */
export function MethodsSources() {
  return (
    <>
      <ProseSection id="sources" heading="Where do the methods come from?">
        <ul>
          {SOURCES.map((source) => (
            <li key={source}>{source}</li>
          ))}
        </ul>
        <p>Volumes are quoted from memory and were not checked against the printed issues.</p>
      </ProseSection>
      <ProseSection id="handling" heading="What about the fish that go back?">
        <p>
          “Released” says that a fish was let go, not that it lived: deaths are known from minutes
          to days after a release (Horodysky & Graves 2005). A fish that goes back does best in the
          water throughout, with the hook out or the line cut close, and revived before it is let go
          (common practice, no source).
        </p>
        <p>
          Which hooks, sizes, seasons and ways of release are allowed differs from place to place
          and from year to year. Check the current text of the regulations where you fish, and ask
          the fishery authority where in doubt.
        </p>
      </ProseSection>
    </>
  );
}
