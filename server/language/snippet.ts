/** A form as a snippet: fixed words as they are, values as places to fill in, choices to choose from. */

import type { FormNode } from '../../grammar/forms.ts';
import { formatDate } from '../base/dates.ts';

/** Marks that a snippet reads are escaped. */
const escapeSnippet = (text: string): string => text.replace(/[\\$}]/g, '\\$&');
const escapeChoice = (text: string): string => text.replace(/[\\$},|]/g, '\\$&');

/**
 * The parts of a form that have to stand. A place shows the name of its value, which the notation does not
 * take for one: nothing that nobody measured gets into a record by leaving a place unfilled.
 * @param today day number, filled in for dates
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
        return next(`|${node.words.map(escapeChoice).join(',')}|`);
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
