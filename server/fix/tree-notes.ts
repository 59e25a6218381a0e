/** What was taken down of one tree of the notes. */

export type Place = 'tree' | 'defect' | 'target';

/** The fact of a head in a tree, with its lines. */
interface RecordNotes {
  readonly place: Place | 'nest';
  readonly head: string;
  readonly lines: string[];
}

/** What the inventory has of a tree already. */
export interface KnownTree {
  readonly defects: readonly { readonly id: string; readonly kind: string }[];
  /** Ids of its prescriptions. */
  readonly works: readonly string[];
}

const UNKNOWN: KnownTree = { defects: [], works: [] };

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

  constructor(
    readonly tag: string,
    private readonly known: KnownTree = UNKNOWN,
    /** The id of the defect on record that one of a kind is a reading of; undefined if it is another one. */
    private readonly again: (kind: string) => string | undefined = () => undefined,
  ) {}

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
    const id = this.again(kind) ?? this.freeDefect();
    this.records.push({ place: 'defect', head: `defect ${id} ${kind}`, lines: [] });
  }

  private freeDefect(): string {
    for (;;) {
      const letter = String.fromCharCode(65 + (this.defects % 26));
      const id = letter + (this.defects >= 26 ? Math.floor(this.defects / 26) : '');
      this.defects++;
      if (!this.known.defects.some(one => one.id === id)) return id;
    }
  }

  target(name: string): void {
    this.close();
    this.records.push({ place: 'target', head: `target "${name.replaceAll('"', '')}"`, lines: [] });
  }

  work(kind: string): void {
    this.close();
    do this.works++;
    while (this.known.works.includes(`R${this.works}`));
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
