import type { ComponentChildren, VNode } from 'preact';
import { printable } from '../base/words.ts';
import type { Picture } from '../draw/drawing.ts';
import { Running } from './running.tsx';

/** One question of a page with its answer, from the sentence to the way it was worked out. */
export interface Entry {
  /** Unique on its page; also the anchor to link to. */
  readonly id: string;
  readonly question: string;
  /** One sentence a captain would say. */
  readonly answer: string;
  /** Anything the answer must not be read without. */
  readonly asides?: readonly string[];
  readonly pictures?: readonly CaptionedPicture[];
  readonly table?: TableBehind;
  /** How it was worked out, in a line, and the anchor on the methods page that says more. */
  readonly how?: { readonly text: string; readonly anchor: string };
}

export interface CaptionedPicture {
  readonly picture: Picture;
  readonly caption: string;
}

/** The numbers behind a picture, and the file that holds them. */
export interface TableBehind {
  readonly view: VNode;
  /** File name in the same folder. */
  readonly csv: string;
  readonly label?: string;
  /** Whether it stands open from the start, where it is the answer itself. */
  readonly open?: boolean;
}

/** A question, its answer in a sentence, the picture, the table behind it, and how it came about. */
export function EntrySection({ entry }: { readonly entry: Entry }) {
  const { id, question, answer, asides = [], pictures = [], table, how } = entry;
  return (
    <section class="entry" id={id} aria-labelledby={`${id}-question`}>
      <h2 id={`${id}-question`}>{printable(question)}</h2>
      <div class="body">
        <p class="answer">
          <Running text={answer} />
        </p>
        {asides.map((aside) => (
          <p class="aside" key={aside}>
            <Running text={aside} />
          </p>
        ))}
        {pictures.map(({ picture, caption }) => (
          <PictureFigure picture={picture} caption={caption} key={picture.words.id} />
        ))}
        {table !== undefined && <Behind table={table} />}
        {how !== undefined && (
          <p class="how">
            {printable(how.text)} <a href={`methods.html#${how.anchor}`}>Method</a>
          </p>
        )}
      </div>
    </section>
  );
}

/** A heading in the margin with running text beside it. */
export function ProseSection(section: {
  readonly id: string;
  readonly heading: string;
  readonly children: ComponentChildren;
}) {
  const { id, heading, children } = section;
  return (
    <section class="entry" id={id} aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`}>{heading}</h2>
      <div class="body prose">{children}</div>
    </section>
  );
}

/** A picture at both widths, of which the page shows one, with its caption. */
export function PictureFigure({ picture, caption }: CaptionedPicture) {
  return (
    <figure>
      <div class="narrow" dangerouslySetInnerHTML={{ __html: picture.narrow }} />
      <div class="wide" dangerouslySetInnerHTML={{ __html: picture.wide }} />
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

function Behind({ table }: { readonly table: TableBehind }) {
  return (
    <details open={table.open === true}>
      <summary>{table.label ?? 'The table behind it'}</summary>
      {table.view}
      <p>
        <a href={table.csv}>The same numbers as {table.csv}</a>
      </p>
    </details>
  );
}
