/** Generates server/rules/RULES.md and a page for each rule from the rules. */

import { photoSentences } from './example-photos.ts';
import { type Example, type Rule, restsOn } from './rule.ts';

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

const GENERATED = '<!-- Generated from server/rules by `npm run generate`; edit the rules. -->';

/** All rules by group, with links to their pages. */
export function rulesTable(rules: readonly Rule[]): string {
  const groups = [...new Set(rules.map(rule => rule.group))];
  const rows = groups.flatMap(group =>
    rules
      .filter(rule => rule.group === group)
      .map(
        rule =>
          `| ${group} | [${rule.name}](pages/${rule.name}.md) | ${cell(rule.summary)} | ${cell([...new Set(rule.sources.map(source => source.short))].join('; '))} | ${restsOn(rule)} | ${rule.acceptable ? 'yes' : 'no'} |`,
      ),
  );
  return `# Rules

${GENERATED}

${rules.length} rules. A value that exceeds its limit across its whole range is an error; one that may exceed it is a warning. A practice block
can set another severity; for rules based on law or safety, only a higher one. *Exception* says whether an \`accept\` record can
waive a finding; legal prohibitions cannot be waived. \`soundwood explain RULE\` prints the page of a rule in the terminal.

| group | rule | what it reports | source | based on | exception |
| --- | --- | --- | --- | --- | --- |
${rows.join('\n')}
`;
}

const example = (one: Example) => `### ${one.title}
${one.on ? `\nToday is ${one.on}.\n` : ''}${photoSentences(one)
  .map(sentence => `\n- ${sentence}`)
  .join('')}${one.photos ? '\n' : ''}
\`\`\`wood
${one.text.trimEnd()}
\`\`\`
`;

/** One rule's page. */
export function rulePage(rule: Rule): string {
  const sources = [...new Set(rule.sources)].map(source => `- ${source.full} (${source.confidence})`);
  return `# ${rule.name}

${GENERATED}

${rule.summary}

Group: ${rule.group}. Based on ${restsOn(rule)}${restsOn(rule) === 'practice' ? '' : ', so a practice block can only raise its severity'}. Exceptions: ${rule.acceptable ? 'possible' : 'not possible'}.

## Why

${rule.explanation.trim()}

## Limitations

${rule.limitations.trim()}
${rule.caution ? `\n> **Caution.** ${rule.caution}\n` : ''}
## Sources

${sources.length > 0 ? sources.join('\n') : 'None: this rule follows from the notation itself.'}

## Examples

A line that the rule reports ends in \`#!\` and the grade of the finding.

${rule.examples.map(example).join('\n')}`;
}
