/** Problems as a SARIF 2.1.0 log, the open standard for what checks find (OASIS). */
import { createHash } from 'node:crypto';
import type { Place, Problem, Severity } from '../../problem.ts';
import { visible, visibleJson } from '../escape.ts';
import { type Printable, printedLayout } from '../printable.ts';
import { countsOf } from './problems.ts';

/** What a log says of a rule. */
interface RuleWords {
  readonly name: string;
  readonly severity: Severity;
  readonly about: string;
}

/** What was checked, by which rules and which version of the program. */
interface SarifScope {
  readonly rules: readonly RuleWords[];
  /** The studio's folder from the repository's root, with a slash at its end or empty. */
  readonly prefix: string;
  readonly version: string;
}

const SCHEMA =
  'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

/** What paths are relative to: the name that viewers know for the root of the sources. */
const BASE = '%SRCROOT%';

/**
 * The log as one JSON document with a line end: every rule, and the problems in their order. Columns
 * count UTF-16 code units. A result's partial fingerprint does not change when its record moves.
 */
export function sarif(
  problems: readonly Problem[],
  { rules, prefix, version }: SarifScope,
): Printable {
  const sorted = rules.toSorted((a, b) => (a.name < b.name ? -1 : 1));
  const indexes = new Map(sorted.map(({ name }, index) => [name, index]));
  const prints = fingerprints(problems);
  const log = {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'saggar', version, rules: sorted.map(descriptor) } },
        invocations: [{ executionSuccessful: true }],
        columnKind: 'utf16CodeUnits',
        results: problems.map((problem, at) => ({
          ...result(problem, prefix),
          ruleIndex: indexes.get(problem.rule) ?? -1,
          partialFingerprints: { [FINGERPRINT]: prints[at] },
        })),
      },
    ],
  };
  return printedLayout(`${visibleJson(JSON.stringify(log, null, 2))}\n`);
}

function descriptor({ name, severity, about }: RuleWords): object {
  return {
    id: name,
    shortDescription: { text: plainMessage(about) },
    help: { text: plainMessage(`${about} Each result says how to fix it.`) },
    defaultConfiguration: { level: severity },
  };
}

function result(problem: Problem, prefix: string): object {
  const { rule, severity, place, record, message, hint, related } = problem;
  const names = record === undefined ? {} : { logicalLocations: [{ name: record }] };
  return {
    ruleId: rule,
    level: severity,
    message: { text: plainMessage(hint === '' ? message : `${message}. Hint: ${hint}`) },
    locations: [{ physicalLocation: physical(place, prefix), ...names }],
    relatedLocations: related.map((other, index) => ({
      id: index + 1,
      physicalLocation: physical(other.place, prefix),
      message: { text: plainMessage(other.message) },
    })),
  };
}

function physical({ file, line, column, width, source }: Place, prefix: string): object {
  const artifactLocation = { uri: reference(prefix + file), uriBaseId: BASE };
  const isWhole = source === '' && line === 1;
  if (isWhole) return { artifactLocation };
  const region = { startLine: line, startColumn: column, endColumn: column + width };
  return { artifactLocation, region };
}

const LONE_SURROGATE = /\p{Cs}/gu;

/** A path as a relative reference (RFC 3986), a colon in it written so that it names no scheme. */
function reference(path: string): string {
  return path.replace(LONE_SURROGATE, '\ufffd').split('/').map(encodeURIComponent).join('/');
}

/** A plain text message (§ 3.11): braces stand for placeholders there, `[text](place)` for a link. */
function plainMessage(text: string): string {
  return text.replaceAll(/[{}]/g, '$&$&').replaceAll('](', '] (');
}

const FINGERPRINT = 'ruleRecordMessage/v1';

/**
 * What tells a result from all others of the log, and the same one in a later log: its rule, its
 * record (else its file), its message without the figures in it, and its turn among equal ones.
 */
function fingerprints(problems: readonly Problem[]): string[] {
  const seen = new Map<string, number>();
  return problems.map(({ rule, record, place, message }) => {
    const essence = JSON.stringify([rule, record ?? place.file, withoutFigures(message)]);
    const turn = (seen.get(essence) ?? 0) + 1;
    seen.set(essence, turn);
    return createHash('sha256').update(`${essence}${turn}`).digest('hex').slice(0, 32);
  });
}

// Other records change what is on hand; ids and names, which begin with a letter, stay.
function withoutFigures(message: string): string {
  return message.replaceAll(/(?<![\w-])\d[\d.,:-]*/g, '#');
}

/**
 * One line for each problem, `::error file=…,line=…,col=…,endColumn=…,title=…::…`, with the hint and
 * the related places in its message; then a line that counts them.
 * @param prefix the studio's folder from the repository's root, with a slash at its end or empty
 */
export function annotations(problems: readonly Problem[], prefix: string): Printable {
  const lines = problems.map((problem) => problemCommand(problem, prefix));
  return printedLayout([...lines, countsOf(problems)].map((line) => `${line}\n`).join(''));
}

/** The same for problems of which only the line is known. */
export function lineAnnotations(problems: readonly LineProblem[], prefix: string): Printable {
  const lines = problems.map(({ severity, rule, file, line, message, hint }) => {
    const properties = { file: prefix + file, line: String(line), title: rule };
    return command(severity, properties, [message, ...(hint === '' ? [] : [`hint: ${hint}`])]);
  });
  return printedLayout(lines.map((line) => `${line}\n`).join(''));
}

/** A problem at a line. */
interface LineProblem extends Pick<Problem, 'rule' | 'severity' | 'message' | 'hint'> {
  readonly file: string;
  readonly line: number;
}

function problemCommand(problem: Problem, prefix: string): string {
  const { severity, place, rule, message, hint, related } = problem;
  const { file, line, column, width } = place;
  const properties = {
    file: prefix + file,
    line: String(line),
    col: String(column),
    endColumn: String(column + width),
    title: rule,
  };
  const says = [
    message,
    ...(hint === '' ? [] : [`hint: ${hint}`]),
    ...related.map((other) => `see ${placeText(other.place, prefix)} ${other.message}`),
  ];
  return command(severity, properties, says);
}

function command(
  severity: Severity,
  properties: Readonly<Record<string, string>>,
  says: readonly string[],
): string {
  const words = Object.entries(properties).map(([name, value]) => `${name}=${property(value)}`);
  return `::${severity} ${words.join(',')}::${data(says.map(visible).join('\n'))}`;
}

function placeText({ file, line, column }: Place, prefix: string): string {
  return `${prefix}${file}:${line}:${column}`;
}

/** What a command's own signs are written as, so that no text is taken for one. */
function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(visible(text)).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
