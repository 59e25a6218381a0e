/** A text form that is written row by row, so that all rows need not be in memory. */

export interface RowForm<Row> {
  readonly head: string;
  readonly row: (row: Row) => string;
  /** Between two rows. */
  readonly between: string;
  readonly end: string;
}

/** A binary form of rows. */
export interface RowFile<Row> {
  readonly add: (row: Row) => void;
  readonly end: () => void;
}

export const allRows = <Row>({ head, row, between, end }: RowForm<Row>, rows: readonly Row[]): string =>
  head + rows.map(row).join(between) + end;
