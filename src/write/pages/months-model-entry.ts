import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { indexFit } from '../../decide/index-fit.ts';
import { drawCurves } from '../../draw/draw-curves.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { IndexModel } from '../../estimate/index-model.ts';
import { normalPlot, type QuantilePair } from '../../estimate/normal-plot.ts';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { monthsIndex } from './months-entry.ts';
import type { ReportContext } from './report-context.ts';

/** Whether the model behind the standardised months fits; null where there is none. */
export async function monthsModelEntry(context: ReportContext): Promise<EntryWithFiles | null> {
  const model = monthsIndex(context).model?.();
  const fit = model === undefined ? null : indexFit(model, 'month');
  if (model === undefined || fit === null) return null;
  const pairs = normalPlot(model.residuals);
  return {
    entry: {
      id: 'months-model',
      question: 'Does the model behind the standardised months fit?',
      answer: fit.sentence,
      asides: [spreadWords(model)],
      pictures: [await residualPicture(pairs)],
      how: { text: 'Randomised quantile residuals, drawn with the seed.', anchor: 'index' },
    },
    files: [],
  };
}

function spreadWords({ family, theta, unit, dispersion, aic, poisson }: IndexModel): string {
  const spread = (value: number | null) => (value === null ? 'not known' : formatDecimal(value, 2));
  const size = (value: number | null) => (value === null ? 'not known' : formatCount(value));
  const own =
    theta === null
      ? `A ${family} model of counts by the ${unit}`
      : `A ${family} model of counts by the ${unit}, θ ${formatDecimal(theta, 2)}`;
  return (
    `${own}: spread ${spread(dispersion)} times what it expects, AIC ${size(aic)}. ` +
    `Poisson beside it: ${spread(poisson.dispersion)} and ${size(poisson.aic)}. ` +
    'The intervals are taken from trip to trip and do not lean on this spread.'
  );
}

async function residualPicture(pairs: readonly QuantilePair[]): Promise<CaptionedPicture> {
  const point = (x: number, y: number) => ({ x, y, lower: y, upper: y });
  const found = pairs.map(({ expected, found: y }) => point(expected, y));
  const wanted = pairs.map(({ expected }) => point(expected, expected));
  const chart = {
    curves: [
      { name: 'residuals', points: found },
      { name: 'where the model holds', points: wanted },
    ],
    shape: 'line' as const,
    xTitle: 'residual expected if the model holds',
    yTitle: 'residual found',
    xSpan: [-2.5, 2.5] as const,
    ySpan: [-2.5, 2.5] as const,
    level: null,
    mark: null,
  };
  const words = {
    id: 'months-model-picture',
    title: 'Residuals of the model behind the standardised months',
    description: 'Quantiles of the residuals against those of a normal law, with the diagonal.',
  };
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: 'On the line: the counts vary as the model says. Bent away at an end: not there.',
  };
}
