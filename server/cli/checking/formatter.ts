/** Findings → output: text is written as findings come, the other forms when all are there. */

import type { SignTally } from '../../assess/signs.ts';
import type { Finding } from '../../rules/check.ts';
import { INTERNAL_ERROR } from '../../rules/raw-finding.ts';
import type { Report } from '../../show/check-result.ts';
import { showJson } from '../../show/json.ts';
import { showJunit } from '../../show/junit.ts';
import { showMarkdown } from '../../show/markdown.ts';
import { showSarif } from '../../show/sarif.ts';
import { addUp, NOTHING_FOUND, type Summary, summarize } from '../../show/summary.ts';
import { type Paint, showFinding } from '../../show/terminal.ts';
import { someRejected } from '../reject.ts';

/** The forms of findings that are for programs and reviews; text is for the terminal. */
const FORMS = { json: showJson, sarif: showSarif, junit: showJunit, markdown: showMarkdown } as const;
export type Form = 'text' | keyof typeof FORMS;

/** A finding, and the text of the line on which it begins. */
export interface PlacedFinding {
  readonly finding: Finding;
  readonly line: string;
}

/** What is known before the first finding comes. */
export interface About extends Pick<Report, 'on' | 'rejected' | 'since' | 'siteOf' | 'shown' | 'unread'> {
  readonly trees: number;
  readonly files: number;
  /** For the forms that name every tree. */
  readonly listFiles: () => Report['files'];
}

interface Formatted {
  readonly summary: Summary;
  /** Whether there is a finding that makes the check fail. */
  readonly failed: boolean;
  /** Whether a rule failed, so that something was not judged. */
  readonly broken: boolean;
}

export interface Formatter {
  /** @param signs of the trees in which it was found */
  readonly add: (found: readonly PlacedFinding[], signs?: SignTally) => void;
  readonly end: () => Formatted;
}

/** Findings that become one string: that of all findings of a large file may be longer than strings can be. */
const AT_A_TIME = 1000;

/** @param write takes the output part by part */
export function formatterOf(
  form: Form,
  about: About,
  paint: Paint,
  write: (text: string) => void,
): Formatter {
  const { trees, files, rejected } = about;
  let summary: Summary = { ...NOTHING_FOUND, trees, files };
  let failed = false;
  let broken = false;
  const all: Finding[] = [];
  return {
    add(found, signs) {
      if (signs) summary = addUp(summary, summarize([], 0, 0, signs));
      if (found.length === 0) return;
      const findings = found.map(({ finding }) => finding);
      summary = addUp(summary, summarize(findings, 0, 0));
      failed ||= someRejected(findings, rejected);
      broken ||= findings.some(({ rule }) => rule === INTERNAL_ERROR);
      if (form === 'text') {
        for (let i = 0; i < found.length; i += AT_A_TIME) {
          const some = found.slice(i, i + AT_A_TIME);
          write(some.map(one => asText(one, about.shown, paint)).join(''));
        }
      } else for (const finding of findings) all.push(finding);
    },
    end() {
      if (form !== 'text') write(FORMS[form]({ ...about, findings: all, summary, files: about.listFiles() }));
      return { summary, failed, broken };
    },
  };
}

function asText({ finding, line }: PlacedFinding, nameOf: (file: string) => string, paint: Paint): string {
  const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
  const named = related ? { ...finding, related } : finding;
  return `${showFinding(named, nameOf(finding.file), line, paint)}\n`;
}
