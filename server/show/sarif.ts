/** Findings in the Static Analysis Results Interchange Format 2.1.0 (OASIS, 2020). */

import { version } from '../../package.json';
import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';
import { identityOf, numbered } from '../rules/identity.ts';
import { ruleNamed } from '../rules/registry.ts';
import { acceptedWords } from './accepted.ts';
import type { Report } from './check-result.ts';
import { jsonText, sanitize } from './sanitize.ts';

/** To be increased whenever the identity of a finding changes, so that old and new ones are not matched. */
const FINGERPRINT = 'identity/v1';

export function showSarif({ on, findings, unread, since, siteOf, shown }: Report): string {
  const rules = [...new Set(findings.map(({ rule }) => rule))].sort();
  const identities = numbered(findings.map(finding => identityOf(finding, siteOf(finding.file))));
  const suppressed = findings.some(({ accepted }) => accepted);
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: { name: 'soundwood', semanticVersion: version, rules: rules.map(descriptor) },
        },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: unread.length === 0,
            toolExecutionNotifications: unread.map(({ file, message }) => ({
              level: 'error',
              message: { text: plain(`${file} ${message}`) },
            })),
            properties: { on: formatDate(on) },
          },
        ],
        results: findings.map((finding, i) => ({
          ruleId: finding.rule,
          ruleIndex: rules.indexOf(finding.rule),
          level: finding.level,
          message: { text: words(finding) },
          locations: [location(shown(finding.file), finding)],
          // JSON.stringify omits undefined members.
          relatedLocations: finding.related?.map((place, id) => ({
            id,
            ...location(shown(place.file), place),
            message: { text: plain(place.message) },
          })),
          partialFingerprints: { [FINGERPRINT]: identities[i] },
          baselineState: since === undefined ? undefined : 'new',
          // Either all results have suppressions or none.
          suppressions: suppressed ? suppressions(finding) : undefined,
          properties: { grade: finding.grade, tree: finding.tree, subject: finding.subject },
        })),
      },
    ],
  };
  return `${jsonText(log, 2)}\n`;
}

/** Escapes placeholders and embedded links (sections 3.11.5 and 3.11.6). */
const plain = (text: string): string =>
  sanitize(text)
    .replace(/[{}]/g, '$&$&')
    .replace(/\[(?=[^[\]]*\]\()|\](?=\()/g, '\\$&');

const words = ({ message, remedy, caution }: Finding): string =>
  plain([message, remedy, ...(caution === undefined ? [] : [caution])].join(' '));

function descriptor(name: string) {
  const rule = ruleNamed(name);
  if (!rule) return { id: name, shortDescription: { text: 'mistake of the notation' } };
  return {
    id: name,
    shortDescription: { text: rule.summary },
    fullDescription: { text: rule.explanation.trim() },
    help: {
      text: [
        rule.explanation.trim(),
        `Limitations: ${rule.limitations}`,
        ...rule.sources.map(({ full, url }) => `${full}${url === undefined ? '' : ` ${url}`}`),
      ].join('\n\n'),
    },
    defaultConfiguration: { level: rule.level },
    properties: { group: rule.group, acceptable: rule.acceptable },
  };
}

interface Region {
  readonly line: number;
  readonly column: number;
  readonly endLine?: number;
  readonly endColumn?: number;
}

const location = (file: string, { line, column, endLine, endColumn }: Region) => ({
  physicalLocation: {
    artifactLocation: { uri: uriOf(file) },
    region: { startLine: line, startColumn: column, endLine, endColumn },
  },
});

/** A relative reference with reserved characters escaped. */
const uriOf = (file: string): string => file.split('/').map(encodeURIComponent).join('/');

const suppressions = ({ accepted }: Finding) =>
  accepted
    ? [
        {
          // The accept block is in the inventory.
          kind: 'inSource',
          status: 'accepted',
          justification: acceptedWords(accepted),
          properties: { by: accepted.by, until: formatDate(accepted.until), because: accepted.because },
        },
      ]
    : [];
