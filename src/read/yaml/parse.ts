/**
 * The full reader: what the fast one leaves to it, read by the yaml package record by record, so that
 * a fault in one record does not hide the others.
 */
import { isMap, isScalar, isSeq, type Document, type Pair } from 'yaml';
import { newFindings, type Findings } from '../../fold.ts';
import type { Finding, Place } from '../../problem.ts';
import { newBudget, parsed, readOnce, type Budget, type Overrun } from './budget.ts';
import { unsettledIn } from './conflicts.ts';
import type { ReadOptions } from './core.ts';
import { SETTINGS_FILE } from '../kinds.ts';
import { placeInText, type TextSpan } from '../lines.ts';
import { parseMerged } from './merged.ts';
import { convertPair, rootRefusal, spanOf, type NodeRefusal, type Words } from './nodes.ts';
import { newTable, type FileText, type Growing, type Parsed, type Raw } from '../raw.ts';
import { cutRecords, mostIn, type RecordSpan } from '../records.ts';
import { scan, type Scanned } from './scan.ts';
import { unfitCharacter } from '../text.ts';
import { firstFault, firstLine, noColon } from './yaml-words.ts';

/**
 * Reads a file's text as plain YAML: one mapping, no anchors, aliases, merge keys or tags, at most 64
 * levels deep. A record with a fault is left out and reported; of two with one id the first stays.
 * Where the faults can't be told apart by record, nothing of the file is given. Of a file with markers
 * of a merge, what both sides have alike is given. Never throws.
 */
export function parseText(source: FileText, options: ReadOptions): Parsed {
  const unsettled = unsettledIn(source.text);
  if (unsettled) return parseMerged(source, unsettled, (side) => parseSettled(side, options));
  return parseSettled(source, options);
}

function parseSettled(source: FileText, options: ReadOptions): Parsed {
  const reading: TextReading = {
    source,
    options,
    root: newTable(),
    first: new Map(),
    findings: newFindings(),
    odd: false,
  };
  read(reading);
  const { root, odd, findings } = reading;
  return { root, odd, findings: findings.all() };
}

/** A part of a text that was parsed alone, and where it begins in the whole. */
interface Piece {
  readonly text: string;
  readonly start: number;
}

interface ReadEntry {
  readonly key: string;
  readonly value: Raw;
}

interface TextReading {
  readonly source: FileText;
  readonly options: ReadOptions;
  readonly root: Growing;
  /** Where each key of the root stands first. */
  readonly first: Map<string, TextSpan>;
  readonly findings: Findings;
  odd: boolean;
}

function read(reading: TextReading): void {
  const { file, text } = reading.source;
  const most = mostIn(file);
  const { records, regular } = cutRecords(text);
  const beyond = records[most];
  if (beyond) refuseIn(reading, { span: beyond, ...tooMany(file) }, 0);
  else if (!regular) readWhole(reading, records);
  else {
    const unfit = unfitCharacter(file, text, { start: 0, end: records[0]?.start ?? text.length });
    if (unfit) reading.findings.add(unfit.rule, () => unfit);
    readRecords(reading, records);
  }
}

function tooMany(file: string): Words {
  const isStudio = file === SETTINGS_FILE;
  const number = `${mostIn(file) / 1000},000`;
  return {
    message: `the file has more than ${number} ${isStudio ? 'settings' : 'records'}, and none of them is read`,
    hint: isStudio
      ? 'take out what is not a setting; records belong in files of their own'
      : 'divide the records among several files',
  };
}

/** A record alone, and how far it was read. */
interface Looked extends Piece {
  readonly unfit?: Finding | undefined;
  /** What the fast reader made of it. */
  readonly scanned?: Scanned | undefined;
  readonly overrun?: Overrun | undefined;
}

/**
 * Reads each record alone. What they ask of the package is known before it is given any: where that is
 * too much for one file, only what the fast reader takes is read.
 */
function readRecords(reading: TextReading, records: readonly RecordSpan[]): void {
  const budget = newBudget();
  const looked = records.map((record) => look(reading, record, budget));
  const end = looked.find(({ overrun }) => overrun?.why === 'file');
  for (const each of looked) if (!end || each === end || each.scanned) readRecord(reading, each);
}

function look(reading: TextReading, record: RecordSpan, budget: Budget): Looked {
  const { source, options } = reading;
  const { start } = record;
  const text = source.text.slice(start, record.end);
  const unfit = unfitCharacter(source.file, source.text, record);
  if (unfit) return { text, start, unfit };
  const scanned = scan(text, options);
  return scanned ? { text, start, scanned } : { text, start, overrun: budget(text) };
}

function readRecord(reading: TextReading, { text, start, unfit, scanned, overrun }: Looked): void {
  if (unfit) reading.findings.add(unfit.rule, () => unfit);
  else if (overrun) refuseIn(reading, overrun, start);
  else if (scanned) {
    reading.odd ||= scanned.odd;
    for (const [key, value] of Object.entries(scanned.root))
      add(reading, { key, value }, { start, end: start + key.length });
  } else {
    const document = parsed(text);
    const fault = faultOf(document, text);
    if (fault) refuseIn(reading, fault, start);
    else convert(reading, document, { text, start });
  }
}

/** Reads the text in one piece where it has to be, and by record where that fails. */
function readWhole(reading: TextReading, records: readonly RecordSpan[]): void {
  const { file, text } = reading.source;
  const unfit = unfitCharacter(file, text, { start: 0, end: text.length });
  const directive = directiveIn(text, records);
  const read = directive ? { overrun: directive } : readOnce(text);
  const fault = 'overrun' in read ? read.overrun : faultOf(read.document, text);
  if ('document' in read && !unfit && !fault) convert(reading, read.document, { text, start: 0 });
  else if (
    'document' in read
      ? isRecoverable(read.document)
      : records.every(({ start }) => !NO_RECORD.test(text.slice(start, start + 4)))
  )
    readRecords(reading, records);
  if (reading.findings.all().length > 0) return;
  if (unfit) reading.findings.add(unfit.rule, () => unfit);
  else if (fault) refuseIn(reading, fault, 0);
}

function isRecoverable({ contents, errors }: Document.Parsed): boolean {
  if (!isMap(contents) || contents.flow === true) return false;
  return !errors.some(({ code }) => code === 'MULTIPLE_DOCS');
}

/** How a line at the margin begins that is not a record's in block style. */
const NO_RECORD = /^(?:[%[{]|(?:---|\.\.\.)(?:\s|$))/;

function faultOf(document: Document.Parsed, text: string): NodeRefusal | undefined {
  return firstFault(document, text) ?? rootFault(document, text);
}

function directiveIn(text: string, records: readonly RecordSpan[]): NodeRefusal | undefined {
  const record = records.find(({ start }) => text.charAt(start) === '%');
  return (
    record && {
      span: { start: record.start, end: record.start + 1 },
      message: 'a line at the margin begins with %',
      hint: 'take this line out; a file needs no such instructions',
    }
  );
}

/** What is wrong with a text that is YAML but no mapping. */
function rootFault(document: Document.Parsed, text: string): NodeRefusal | undefined {
  const { contents } = document;
  if (contents === null || isMap(contents)) return undefined;
  if (isScalar(contents) && contents.type === 'PLAIN' && contents.source === '') return undefined;
  const span = firstLine(text, [spanOf(contents).start, spanOf(contents).end]);
  if (isScalar(contents) && contents.type === 'PLAIN') return noColon({ text, document, at: span });
  return {
    span,
    message: isSeq(contents) ? 'the file is a list' : 'the file holds no records',
    hint: 'begin each record at the margin with its id and a colon, and indent its fields',
  };
}

function convert(reading: TextReading, document: Document.Parsed, at: Piece): void {
  const { contents } = document;
  if (!isMap(contents)) return;
  const refusal = rootRefusal(contents, at.text);
  if (refusal) refuseIn(reading, refusal, at.start);
  else for (const pair of contents.items) convertRecord(reading, pair, at);
}

function convertRecord(reading: TextReading, pair: Pair, { text, start }: Piece): void {
  const { key, keySpan, value, odd, refusals } = convertPair(pair, text, reading.options);
  for (const refusal of refusals) refuseIn(reading, refusal, start);
  if (refusals.length > 0) return;
  reading.odd ||= odd;
  add(reading, { key, value }, { start: start + keySpan.start, end: start + keySpan.end });
}

function add(reading: TextReading, { key, value }: ReadEntry, span: TextSpan): void {
  const { root, first, source } = reading;
  const earlier = first.get(key);
  if (earlier === undefined) {
    first.set(key, span);
    root[key] = value;
    return;
  }
  const place = (of: TextSpan): Place => placeInText(source.file, source.text, of);
  const rule = source.file === SETTINGS_FILE ? 'yaml-error' : 'duplicate-id';
  reading.findings.add(rule, () => ({
    rule,
    severity: 'error',
    at: place(span),
    message: `"${key}" is used twice in this file`,
    hint:
      source.file === SETTINGS_FILE
        ? 'take this one out, or the first, whichever is not meant'
        : `give one of the two another id, such as ${otherId(reading, key)}`,
    related: [{ at: place(earlier), message: 'first here' }],
  }));
}

function otherId({ first }: TextReading, key: string): string {
  let turn = 2;
  while (first.has(`${key}-${turn}`)) turn += 1;
  return `${key}-${turn}`;
}

function refuseIn(
  { source, findings }: TextReading,
  { span, message, hint }: NodeRefusal,
  start: number,
): void {
  const stretch = { start: start + span.start, end: start + span.end };
  findings.add('yaml-error', () => {
    const at = placeInText(source.file, source.text, stretch);
    return { rule: 'yaml-error', severity: 'error', at, message, hint };
  });
}
