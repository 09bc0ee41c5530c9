/** A YAML language server as an editor starts it, spoken to in JSON-RPC over its standard streams. */
import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const SERVER = resolve(
  import.meta.dirname,
  '../../node_modules/yaml-language-server/bin/yaml-language-server',
);

// The catalogue of schemas on the web stays out of it: a studio needs no network.
const SETTINGS = {
  yaml: {
    validate: true,
    hover: true,
    completion: true,
    yamlVersion: '1.2',
    schemaStore: { enable: false },
    format: { enable: false },
  },
};

type Settings = Readonly<Record<string, unknown>>;

/** Line and character counted from 0. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Diagnostic {
  readonly message: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

/** What may be typed at a place. */
export interface Offered {
  readonly label: string;
  readonly documentation?: string;
}

/** An open editor on one studio. */
export interface Editor {
  /** Opens a file with a text, which needs not be on the disk, and waits for what is wrong in it. */
  readonly diagnose: (file: string, text: string) => Promise<readonly Diagnostic[]>;
  /** Labels of what may be typed at a place of an opened file. */
  readonly complete: (file: string, at: Position) => Promise<readonly string[]>;
  /** The same, each with what is said beside it. */
  readonly offers: (file: string, at: Position) => Promise<readonly Offered[]>;
  /** What is shown over a place of an opened file; empty for nothing. */
  readonly hover: (file: string, at: Position) => Promise<string>;
  readonly close: () => Promise<void>;
}

/** Starts the server on a studio's folder; `schemas` is the map of schemas to files in the editor's settings. */
export async function openEditor(
  folder: string,
  schemas: Readonly<Record<string, readonly string[]>> = {},
): Promise<Editor> {
  const server = spawn(process.execPath, [SERVER, '--stdio'], { stdio: 'pipe' });
  const settings = { yaml: { ...SETTINGS.yaml, schemas } };
  const wire = wireOf(server, settings);
  const uriOf = (file: string): string => pathToFileURL(resolve(folder, file)).href;
  await wire.request('initialize', {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'studio' }],
    capabilities: {
      workspace: { configuration: true },
      textDocument: {
        hover: { contentFormat: ['plaintext'] },
        completion: { completionItem: { snippetSupport: false } },
      },
    },
  });
  wire.notify('initialized', {});
  wire.notify('workspace/didChangeConfiguration', { settings });
  const at = (file: string, position: Position): object => ({
    textDocument: { uri: uriOf(file) },
    position,
  });
  const offers = async (place: object): Promise<readonly Offered[]> => {
    const answer = await wire.request('textDocument/completion', place);
    const list = answer as { items?: Offered[] } | Offered[] | null;
    return Array.isArray(list) ? list : (list?.items ?? []);
  };
  return {
    diagnose: (file, text) => {
      const found = wire.nextDiagnostics(uriOf(file));
      const textDocument = { uri: uriOf(file), languageId: 'yaml', version: 1, text };
      wire.notify('textDocument/didOpen', { textDocument });
      return found;
    },
    complete: async (file, position) =>
      (await offers(at(file, position))).map(({ label }) => label),
    offers: (file, position) => offers(at(file, position)),
    hover: async (file, position) => {
      const answer = await wire.request('textDocument/hover', at(file, position));
      const contents = (answer as { contents?: { value?: string } | string } | null)?.contents;
      return typeof contents === 'string' ? contents : (contents?.value ?? '');
    },
    close: async () => {
      await wire.request('shutdown', null);
      wire.notify('exit', null);
      if (server.exitCode === null) await new Promise((done) => server.once('exit', done));
    },
  };
}

interface Wire {
  readonly request: (method: string, params: unknown) => Promise<unknown>;
  readonly notify: (method: string, params: unknown) => void;
  readonly nextDiagnostics: (uri: string) => Promise<readonly Diagnostic[]>;
}

function wireOf(server: ChildProcessWithoutNullStreams, settings: Settings): Wire {
  const answers = new Map<number, (message: Message) => void>();
  const waiting = new Map<string, (found: readonly Diagnostic[]) => void>();
  let last = 0;
  const send = (message: Message): void => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const take = (message: Message): void => {
    if (message.method === undefined) answers.get(Number(message.id))?.(message);
    else if (message.id !== undefined) send(answerTo(message, settings));
    else if (message.method === 'textDocument/publishDiagnostics') {
      const { uri, diagnostics } = message.params as { uri: string; diagnostics: Diagnostic[] };
      waiting.get(uri)?.(diagnostics);
    }
  };
  server.stdout.on('data', framesTo(take));
  return {
    notify: (method, params) => {
      send({ method, params });
    },
    request: (method, params) =>
      new Promise((done, fail) => {
        const id = ++last;
        answers.set(id, ({ result, error }) => {
          if (error) fail(new Error(`${method}: ${error.message}`));
          else done(result);
        });
        send({ id, method, params });
      }),
    nextDiagnostics: (uri) =>
      new Promise((done) => {
        waiting.set(uri, done);
      }),
  };
}

/** The server asks for settings section by section; whatever else it asks is granted with nothing. */
function answerTo({ id, method, params }: Message, settings: Settings): Message {
  if (id === undefined || method !== 'workspace/configuration')
    return { ...(id === undefined ? {} : { id }), result: null };
  const { items } = params as { items: { section?: string }[] };
  return { id, result: items.map(({ section = '' }) => settings[section] ?? null) };
}

/** Cuts the stream into messages: a head that says how many bytes, an empty line, and so many bytes. */
function framesTo(take: (message: Message) => void): (chunk: Buffer) => void {
  let rest = Buffer.alloc(0);
  return (chunk) => {
    rest = Buffer.concat([rest, chunk]);
    for (;;) {
      const head = rest.indexOf('\r\n\r\n');
      const length = Number(/Content-Length: (\d+)/i.exec(rest.toString('latin1', 0, head))?.[1]);
      if (head < 0 || rest.length < head + 4 + length) return;
      const body = rest.toString('utf8', head + 4, head + 4 + length);
      rest = rest.subarray(head + 4 + length);
      take(JSON.parse(body) as Message);
    }
  };
}
