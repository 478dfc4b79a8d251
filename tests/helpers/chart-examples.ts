import { type Estimate, estimated, notEstimable } from '../../src/base/estimate.ts';
import { PER_10_LINE_HOURS, PERCENT, POINTS } from '../../src/base/format-figure.ts';
import { plural } from '../../src/base/words.ts';
import type { BoatPosition } from '../../src/draw/boat-layout.ts';
import type { DotChart, DotMark } from '../../src/draw/dot-chart.ts';
import { type AlongChart, drawAlong } from '../../src/draw/draw-along.ts';
import { type CurveChart, drawCurves } from '../../src/draw/draw-curves.ts';
import { drawDots } from '../../src/draw/draw-dots.ts';
import { drawHeat, type HeatChart } from '../../src/draw/draw-heat.ts';
import { drawHours, type HoursChart } from '../../src/draw/draw-hours.ts';
import type { Drawing } from '../../src/draw/drawing.ts';
import { DEFAULT_POSITIONS, type Position } from '../../src/settings/settings.ts';

/** A picture to look at: invented figures, chosen to be awkward. */
export interface ChartExample {
  readonly id: string;
  readonly title: string;
  readonly draw: (width: number) => Drawing;
}

/** Text that would do harm or break a layout if any of it were taken for markup. */
export const HOSTILE =
  '<script>alert("x")</script> ]]> & \' " </svg><img src=x onerror=alert(1)> \u202Eevil\u202C';

const BASIS = { level: 0.95, method: 'example', exposure: null, notes: [] };

export function figure(estimate: number, lower: number, upper: number): Estimate {
  return estimated({ estimate, lower, upper, n: 100, ...BASIS });
}

export function noFigure(reason: string): Estimate {
  return notEstimable(reason, { n: 0, ...BASIS });
}

function mark(figures: Estimate, bites: number): DotMark {
  return { figure: figures, n: `${bites} bites`, thin: bites < 10 };
}

const BAITS: DotChart = {
  rows: [
    { label: 'goggle-eye', marks: [mark(figure(0.68, 0.62, 0.74), 412)] },
    { label: 'blue runner, bridled', marks: [mark(figure(0.61, 0.55, 0.67), 388)] },
    { label: 'small mullet', marks: [mark(figure(0.5, 0.41, 0.59), 131)] },
    { label: 'threadfin herring', marks: [mark(figure(0.46, 0.22, 0.71), 14)] },
    { label: 'squid', marks: [mark(figure(1, 0.31, 1), 3)] },
    { label: 'flying fish', marks: [mark(noFigure('No bite on this bait.'), 0)] },
  ],
  series: [],
  style: PERCENT,
  axisTitle: 'hooked, % of bites',
  reference: { value: 0.58, label: 'all bites 58 %' },
  shaded: null,
  span: null,
};

const RANKED: DotChart = {
  ...BAITS,
  rows: BAITS.rows.map((row) => ({
    ...row,
    marks: row.marks.flatMap((m) => [
      m,
      m.figure.kind === 'estimated'
        ? {
            ...m,
            figure: figure(
              0.4 * 0.58 + 0.6 * m.figure.estimate,
              0.4 * 0.58 + 0.6 * m.figure.lower,
              0.4 * 0.58 + 0.6 * m.figure.upper,
            ),
          }
        : m,
    ]),
  })),
  series: ['as logged', 'drawn towards the average'],
};

const LENSES: DotChart = {
  rows: [
    {
      label: 'as logged',
      marks: [{ figure: figure(0.083, 0.012, 0.154), n: '1,204 bites', thin: false }],
    },
    {
      label: 'same day',
      marks: [{ figure: figure(0.031, -0.052, 0.114), n: '611 bites', thin: false }],
    },
    {
      label: 'adjusted',
      marks: [{ figure: noFigure('Tied together.'), n: '1,204 bites', thin: false }],
    },
  ],
  series: [],
  style: POINTS,
  axisTitle: 'braid minus mono, hooked per 100 bites, percentage points',
  reference: { value: 0, label: '' },
  shaded: { from: -0.05, to: 0.05, label: 'too small to matter' },
  span: [-0.1, 0.1],
};

const RATES: DotChart = {
  rows: [
    { label: 'starboard-middle', marks: [mark(figure(0.182, 0.12, 0.25), 214)] },
    { label: HOSTILE, marks: [mark(figure(0.09, 0.05, 0.17), 61)] },
    { label: 'x'.repeat(5000), marks: [mark(figure(0.4, 0, 9), 4)] },
    { label: 'ملاح 漢字 long name that goes on', marks: [mark(figure(0, 0, 0.037), 12)] },
  ],
  series: [],
  style: PER_10_LINE_HOURS,
  axisTitle: 'bites per 10 line-hours',
  reference: null,
  shaded: null,
  span: [0, 0],
};

const FUNNEL: DotChart = {
  rows: [
    {
      label: 'bites',
      marks: [{ figure: figure(1, 1, 1), n: '2,013 bites', thin: false, exact: true }],
    },
    {
      label: 'hooked',
      marks: [{ figure: figure(0.617, 0.59, 0.643), n: '1,242 fish', thin: false }],
      loss: '771 missed',
    },
    {
      label: 'caught',
      marks: [{ figure: figure(0.482, 0.45, 0.514), n: '970 fish', thin: false }],
      loss: '272 lost',
    },
  ],
  series: [],
  style: { kind: 'rate', scale: 100, per: '100 bites' },
  axisTitle: 'of 100 bites',
  reference: null,
  shaded: null,
  span: [0, 1],
};

const MONTH_NAMES = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

function months(count: number): AlongChart {
  const rates = Array.from({ length: count }, (_, i) => 0.14 + 0.06 * Math.sin(i));
  const points = (shift: number) =>
    rates.map((rate, x) => ({
      x,
      figure: figure(rate + shift, rate + shift - 0.03, rate + shift + 0.035),
      thin: x === 3,
    }));
  return {
    series: [
      { name: 'as logged', points: points(0) },
      { name: 'standardised', points: points(0.015) },
    ],
    ticks: rates.map((_, x) => ({
      x,
      label: MONTH_NAMES[x % 12] ?? '',
      count: x === 3 ? '7' : String(180 + 17 * x),
    })),
    xSpan: [-0.6, count - 0.4],
    style: PER_10_LINE_HOURS,
    yTitle: 'fish caught per 10 line-hours',
    xTitle: 'month, with its bites',
    joined: true,
  };
}

const HOURS: HoursChart = {
  hours: Array.from({ length: 13 }, (_, i) => ({
    hour: i + 5,
    figure: figure(0.1 + 0.1 * Math.exp(-((i - 4) ** 2) / 4), 0.06, 0.28),
    thin: i === 0 || i === 12,
    lineHours: 30 + 40 * Math.sin((Math.PI * (i + 1)) / 14) * 4,
  })),
  style: PER_10_LINE_HOURS,
  yTitle: 'bites per 10 line-hours',
};

const SURVIVAL: CurveChart = {
  curves: ['mono', 'braid'].map((name, c) => ({
    name,
    points: Array.from({ length: 16 }, (_, x) => {
      const y = Math.exp(-((x / (c === 0 ? 14 : 26)) ** 1.8));
      return {
        x,
        y: 100 * y,
        lower: Math.max(0, 100 * y - 3 * x),
        upper: Math.min(100, 100 * y + 2 * x),
      };
    }),
  })),
  shape: 'steps',
  xTitle: 'trips since the reel was filled',
  yTitle: 'reels that have not broken off yet, %',
  xSpan: [0, 15],
  ySpan: [0, 100],
  level: null,
  mark: null,
};

const COST: CurveChart = {
  curves: [
    {
      name: 'mono',
      points: Array.from({ length: 28 }, (_, i) => {
        const x = i + 3;
        const y = 60 / x + 0.05 * x ** 1.4;
        return { x, y, lower: y * 0.8, upper: y * 1.25 };
      }),
    },
  ],
  shape: 'line',
  xTitle: 'respool after so many trips',
  yTitle: 'cost per trip, USD',
  xSpan: [0, 30],
  ySpan: [0, 0],
  level: 5,
  mark: { x: 15, label: 'cheapest: every 15 trips' },
};

const CROSS: HeatChart = {
  rows: [
    'port-short',
    'port-middle',
    'port-long',
    'starboard-short',
    'starboard-middle',
    'starboard-long',
    'flat-port',
    'flat-starboard',
    'pitch',
  ],
  columns: ['mono', 'braid'],
  counts: [
    [120, 12],
    [88, 40],
    [0, 131],
    [101, 9],
    [90, 31],
    [2, 144],
    [61, 0],
    [58, 3],
    [1014, 5],
  ],
  title: 'bites, by position and line type',
};

const CROSS_WIDE: HeatChart = {
  rows: CROSS.rows,
  columns: [
    'goggle-eye',
    'blue runner',
    'small mullet',
    'threadfin herring',
    'squid',
    'flying fish',
    'ballyhoo',
  ],
  counts: CROSS.rows.map((_, r) => Array.from({ length: 7 }, (_, c) => (r * 37 + c * 53) % 211)),
  title: 'bites, by position and bait',
};

export const CHART_EXAMPLES: readonly ChartExample[] = [
  { id: 'dots', title: 'Hooked by bait', draw: (width) => drawDots(BAITS, width) },
  { id: 'ranked', title: 'Baits raw and shrunken', draw: (width) => drawDots(RANKED, width) },
  { id: 'lenses', title: 'Three lenses', draw: (width) => drawDots(LENSES, width) },
  { id: 'rates', title: HOSTILE, draw: (width) => drawDots(RATES, width) },
  { id: 'funnel', title: 'From bite to boat', draw: (width) => drawDots(FUNNEL, width) },
  { id: 'months', title: 'Month by month', draw: (width) => drawAlong(months(8), width) },
  { id: 'months-long', title: 'Two years', draw: (width) => drawAlong(months(24), width) },
  { id: 'month-one', title: 'One month', draw: (width) => drawAlong(months(1), width) },
  { id: 'hours', title: 'Hours of the day', draw: (width) => drawHours(HOURS, width) },
  { id: 'survival', title: 'First break', draw: (width) => drawCurves(SURVIVAL, width) },
  { id: 'cost', title: 'Cost by respool age', draw: (width) => drawCurves(COST, width) },
  { id: 'cross', title: 'Who fished where', draw: (width) => drawHeat(CROSS, width) },
  { id: 'cross-wide', title: 'Bait by position', draw: (width) => drawHeat(CROSS_WIDE, width) },
];

const RIGGED = DEFAULT_POSITIONS.map((position, i) => ({
  ...position,
  bites: [214, 131, 88, 240, 160, 5, 61, 44, 12][i] ?? 0,
}));

function boatPosition(position: Position & { bites: number }): BoatPosition {
  return {
    ...position,
    figure: position.bites === 0 ? 'not known' : '62\u202f% (54–69)',
    n: plural(position.bites, 'bite'),
    thin: position.bites < 10,
  };
}

/** Spreads of 3, 9 and 14 positions, the last under awkward names. */
export const BOAT_EXAMPLES: readonly { readonly id: string; readonly positions: BoatPosition[] }[] =
  [
    { id: 'boat', positions: RIGGED.map(boatPosition) },
    {
      id: 'boat-three',
      positions: RIGGED.filter((_, i) => [0, 3, 8].includes(i)).map(boatPosition),
    },
    { id: 'boat-none', positions: [] },
    {
      id: 'boat-fourteen',
      positions: [
        ...RIGGED.map((position, i) => ({
          ...position,
          name: i === 1 ? HOSTILE : `${position.name} outrigger kite`,
        })),
        ...RIGGED.slice(0, 4).map((position) => ({ ...position, name: 'w'.repeat(5000) })),
        { name: 'shotgun', side: 'centre' as const, reach: 'long' as const, bites: 0 },
      ].map(boatPosition),
    },
    {
      id: 'boat-unplaced',
      positions: [
        ...RIGGED.map(boatPosition).slice(2, 5),
        {
          name: 'not recorded',
          side: null,
          reach: null,
          bites: 31,
          figure: '48\u202f% (29–68)',
          n: '31 bites',
          thin: false,
        },
      ],
    },
  ];
