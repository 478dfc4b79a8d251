/** A column of a table for the terminal. */
export interface TextColumn {
  readonly head: string;
  readonly align: 'left' | 'right';
}

/** Lines of a table with aligned columns and a rule under the heads; two spaces between columns. */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
): string {
  const widths = columns.map(({ head }, at) =>
    Math.max(head.length, ...rows.map((row) => row[at]?.length ?? 0)),
  );
  const line = (cells: readonly string[]) =>
    columns
      .map(({ align }, at) => {
        const cell = cells[at] ?? '';
        const width = widths[at] ?? 0;
        return align === 'right' ? cell.padStart(width) : cell.padEnd(width);
      })
      .join('  ')
      .trimEnd();
  const heads = line(columns.map(({ head }) => head));
  const rule = widths.map((width) => '─'.repeat(width)).join('  ');
  return [heads, rule, ...rows.map(line)].join('\n');
}
