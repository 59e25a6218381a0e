/**
 * What was found in one of several parts of an inventory, each checked by a run of its own: the published form of
 * `check --shard`, described by part.schema.json. It holds all that the forms of findings show, since whoever gathers
 * the parts may not have the inventory. A change that could break a reader raises `version`.
 */

import type { SignTally } from '../assess/signs.ts';
import { formatDate } from '../base/dates.ts';
import type { PlacedFinding, Report } from './check-result.ts';
import { findingForJson } from './json.ts';
import { jsonText } from './sanitize.ts';

export const PART_VERSION = 4;

/** More than any array of jobs has; so that a damaged number is seen to be one. */
export const MOST_PARTS = 9999;

export interface PartResult {
  /** Version of the program that made it. */
  readonly program: string;
  /** Day number for which the inventory was checked. */
  readonly on: number;
  /** From 1 to `of`. */
  readonly part: number;
  /** At most `MOST_PARTS`. */
  readonly of: number;
  readonly inventory: {
    /** Hexadecimal, over the names and the SHA-256 of all files, also of those that only apply to the others. */
    readonly sha256: string;
    /** Files that are checked, in all parts together. */
    readonly files: number;
  };
  readonly unread: Report['unread'];
  /** Those of this part, in the order of the inventory. */
  readonly files: readonly PartFile[];
}

export interface PartFile {
  /** Among the files of the whole inventory, from 0. */
  readonly place: number;
  /** As named for the reader; so are those in its findings. */
  readonly file: string;
  /** Name of the site that it belongs to. */
  readonly site: string | undefined;
  /** Code of the region that it lies in, `default` where none is stated. */
  readonly region: string;
  /** Tags of its trees. */
  readonly trees: readonly string[];
  readonly signs: SignTally;
  readonly found: readonly PlacedFinding[];
}

export function showPart({ program, on, part, of, inventory, unread, files }: PartResult): string {
  const result = {
    version: PART_VERSION,
    program,
    on: formatDate(on),
    part,
    of,
    inventory,
    unread,
    files: files.map(({ place, file, site, region, trees, signs, found }) => ({
      place,
      file,
      // A member that is undefined is left out of the text.
      site,
      region,
      trees,
      signs,
      // Many findings may lie on one line.
      lines: Object.fromEntries(found.map(({ finding, line }) => [finding.line, line])),
      found: found.map(({ finding, tree, fixes }) => ({
        start: finding.start,
        end: finding.end,
        finding: findingForJson(finding, name => name),
        tree,
        fixes,
      })),
    })),
  };
  return `${jsonText(result)}\n`;
}
