/** What was taken down of one tree of the notes. */

export type Place = 'tree' | 'defect' | 'target';

/** The fact of a head in a tree, with its lines. */
interface RecordNotes {
  readonly place: Place | 'nest';
  readonly head: string;
  readonly lines: string[];
}

/** One tree of the notes. */
export class TreeNotes {
  readonly tree: string[] = [];
  readonly records: RecordNotes[] = [];
  readonly nests: string[] = [];
  /** Lines that may be another tree: they stay as written, and are mistakes of the inventory. */
  readonly unread: string[] = [];
  /** Words that nothing was made of, since the last phrase. */
  private rest: string[] = [];
  private defects = 0;
  private works = 0;

  constructor(readonly tag: string) {}

  get current(): RecordNotes | undefined {
    return this.records.at(-1);
  }

  get place(): Place {
    return (this.current?.place as Place | undefined) ?? 'tree';
  }

  field(line: string): void {
    this.close();
    (this.current?.lines ?? this.tree).push(line);
  }

  ofTree(line: string): void {
    this.close();
    this.tree.push(line);
  }

  defect(kind: string): void {
    this.close();
    const id =
      String.fromCharCode(65 + (this.defects % 26)) +
      (this.defects >= 26 ? Math.floor(this.defects / 26) : '');
    this.defects++;
    this.records.push({ place: 'defect', head: `defect ${id} ${kind}`, lines: [] });
  }

  target(name: string): void {
    this.close();
    this.records.push({ place: 'target', head: `target "${name.replaceAll('"', '')}"`, lines: [] });
  }

  work(kind: string): void {
    this.close();
    this.works++;
    this.records.push({ place: 'tree', head: `prescription R${this.works} ${kind}`, lines: [] });
  }

  word(word: string): void {
    this.rest.push(word);
  }

  /** The words since the last phrase. */
  get said(): readonly string[] {
    return this.rest;
  }

  /** Forgets the words that match: they are said by the line that follows. */
  drop(pattern: RegExp): boolean {
    const kept = this.rest.filter(word => !pattern.test(word));
    const isSaid = kept.length < this.rest.length;
    this.rest = kept;
    return isSaid;
  }

  /** The words that nothing was made of become a note. */
  close(): void {
    const text = this.rest
      .join(' ')
      .replace(/^(?:(?:and|with|has|is|also|then|a|an|the)(?:\s+|$))+/i, '')
      .trim();
    this.rest = [];
    if (/[\p{L}\d]/u.test(text))
      (this.current?.lines ?? this.tree).push(`note "${text.replaceAll('"', "'")}"`);
  }
}
