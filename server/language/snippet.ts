/** A form as an LSP snippet: values become placeholders, choices become choice elements. */

import type { FormNode } from '../../grammar/forms.ts';
import { formatDate } from '../base/dates.ts';

/** Escapes the special characters of a placeholder. */
export const escapeSnippet = (text: string): string => text.replace(/[\\$}]/g, '\\$&');
const escapeChoice = (text: string): string => text.replace(/[\\$},|]/g, '\\$&');

/** A choice whose default is the name of the value, which no check accepts: nothing is recorded until somebody chooses. */
export const choiceOf = (name: string, words: readonly string[]): string =>
  `|${[name, ...words].map(escapeChoice).join(',')}|`;

/**
 * The mandatory parts of a form. A placeholder is the name of the value, which is not a valid value itself: a placeholder
 * left in place cannot become a record of something never measured.
 * @param today day number, the default of dates
 */
export function snippetOf(form: FormNode, today: number): string {
  let place = 0;
  const next = (inner: string) => `\${${++place}${inner}}`;
  const write = (node: FormNode): string => {
    switch (node.kind) {
      case 'literal':
        return node.word;
      case 'comma':
        return ',';
      case 'choice':
        if (node.words.length === 1) return node.words[0]!;
        return next(choiceOf(node.name, node.words));
      case 'value':
        switch (node.type) {
          case 'text':
            return `"${next(`:${escapeSnippet(node.name)}`)}"`;
          case 'date':
            return next(`:${formatDate(today)}`);
          default:
            return next(`:${escapeSnippet(node.name)}`);
        }
      case 'sequence':
        return node.nodes
          .map(write)
          .filter(part => part !== '')
          .reduce((line, part) => (part === ',' || line === '' ? line + part : `${line} ${part}`), '');
      case 'either':
        return write(node.nodes[0]!);
      case 'optional':
      case 'repeat':
      case 'anyOrder':
        return '';
    }
  };
  return write(form);
}
