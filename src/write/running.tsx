import { printable } from '../base/words.ts';

/** Running text in which no bracketed interval is torn apart at the end of a line. */
export function Running({ text }: { readonly text: string }) {
  const pieces = printable(text).split(/(\([^()\s]{1,24}\))/);
  return (
    <>
      {pieces.map((piece, at) =>
        at % 2 === 1 ? (
          <span class="whole" key={String(at)}>
            {piece}
          </span>
        ) : (
          piece
        ),
      )}
    </>
  );
}
