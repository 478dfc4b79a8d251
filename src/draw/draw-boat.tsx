import { renderToStaticMarkup } from 'preact-render-to-string';
import type { BoatPosition, Hull, PlacedLine, PlacedPosition } from './boat-layout.ts';
import { layOutBoat } from './boat-layout.ts';
import { NARROW, type Picture, type PictureWords, WIDE } from './drawing.ts';
import { inkVariable } from './palette.ts';
import { svgElement } from './render-picture.ts';
import { SIZE } from './theme.ts';

/**
 * The boat and her lines seen from above: a circle for each position, its area in proportion to the
 * bites, with name, figure and count beside it.
 */
export function drawBoat(words: PictureWords, positions: readonly BoatPosition[]): Picture {
  const at = (width: number, suffix: string) => {
    const { height, hull, positions: placed } = layOutBoat(positions, width);
    const markup = renderToStaticMarkup(
      <g font-size={SIZE.text}>
        {placed.map(({ line }) => line !== null && <path d={line} fill="none" stroke={QUIET} />)}
        <Boat {...hull} />
        {placed.map((one) => (
          <Bait {...one} />
        ))}
      </g>,
    );
    return svgElement({ ...words, id: `${words.id}-${suffix}` }, { width, height, markup });
  };
  return { words, narrow: at(NARROW, 'narrow'), wide: at(WIDE, 'wide') };
}

const QUIET = inkVariable('muted');

/** Hull, cockpit and house, bow up. */
function Boat({ centre, top, width, length }: Hull) {
  const half = width / 2;
  const at = (x: number, y: number) => `${centre + x * half},${top + y * length}`;
  const hull = `M${at(0, 0)}C${at(0.75, 0.14)} ${at(1, 0.34)} ${at(1, 0.55)}L${at(0.9, 1)}H${
    centre - 0.9 * half
  }L${at(-1, 0.55)}C${at(-1, 0.34)} ${at(-0.75, 0.14)} ${at(0, 0)}Z`;
  return (
    <>
      <path d={hull} fill={inkVariable('wash')} stroke={QUIET} stroke-width="1.5" />
      <path
        d={`M${at(-0.55, 0.36)}Q${at(0, 0.24)} ${at(0.55, 0.36)}L${at(0.6, 0.64)}H${centre - 0.6 * half}Z`}
        fill={inkVariable('paper')}
        stroke={QUIET}
      />
      <path
        d={`M${at(-0.72, 0.7)}H${centre + 0.72 * half}L${at(0.68, 0.95)}H${centre - 0.68 * half}Z`}
        fill="none"
        stroke={QUIET}
      />
    </>
  );
}

/** One position; hollow with a broken outline where its figure rests on too little. */
function Bait({ position, x, y, radius, words }: PlacedPosition) {
  const look = position.thin
    ? { fill: inkVariable('paper'), stroke: inkVariable('thin'), 'stroke-dasharray': '3 3' }
    : { fill: inkVariable('first'), stroke: inkVariable('first') };
  return (
    <>
      <circle cx={round(x)} cy={round(y)} r={round(radius)} stroke-width="1.5" {...look} />
      {words.map((line) => (
        <Line line={line} thin={position.thin} />
      ))}
    </>
  );
}

function Line({ line, thin }: { readonly line: PlacedLine; readonly thin: boolean }) {
  const ink = thin ? 'thin' : line.kind === 'n' ? 'muted' : 'ink';
  return (
    <text
      x={round(line.x)}
      y={round(line.y)}
      text-anchor={line.anchor}
      fill={inkVariable(ink)}
      {...(line.kind === 'name' ? { 'font-weight': 'bold' } : {})}
    >
      {line.text}
    </text>
  );
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
