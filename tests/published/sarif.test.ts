/** The log for other programs against the schema of the standard that it follows. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { FIXTURES, fixtureRules } from '../helpers/fixtures.ts';
import { EXAMPLE, runCommand } from '../helpers/studio-commands.ts';

// SARIF 2.1.0, OASIS: see sarif/SOURCE.md. Written for an older draft of JSON Schema, whose two names
// for itself say nothing of what it allows.
const { $schema, id, ...schema } = JSON.parse(
  readFileSync(join(import.meta.dirname, 'sarif/schema.json'), 'utf8'),
) as Record<string, unknown>;
const ajv = new Ajv({
  strict: false,
  unicodeRegExp: false,
  formats: {
    uri: /^[a-z][a-z0-9+.-]*:[!-~]+$/i,
    // RFC 3986, section 4.2: a relative reference has no colon in its first step.
    'uri-reference':
      /^(?:[\w.~!$&'()*+,;=@-]|%[0-9A-F]{2})+(?:\/(?:[\w.~!$&'()*+,;=:@-]|%[0-9A-F]{2})*)*$/,
    'date-time': true,
  },
});
const isSarif = ajv.compile(schema);

function faults(text: string): unknown {
  return isSarif(JSON.parse(text)) ? [] : isSarif.errors;
}

describe('a SARIF log', () => {
  it('is held against the schema of SARIF, which refuses what is none', () => {
    expect([$schema, id]).toEqual([
      'http://json-schema.org/draft-04/schema#',
      expect.stringContaining('sarif-2.1.0-rtm.5.json'),
    ]);
    expect(faults('{"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}}]}')).toEqual(
      [],
    );
    expect(faults('{"version": "2.0.0", "runs": []}')).not.toEqual([]);
    expect(faults('{"version": "2.1.0", "runs": [{}]}')).not.toEqual([]);
    const result = '{"message": {"text": "x"}, "level": "fatal"}';
    expect(
      faults(
        `{"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}, "results": [${result}]}]}`,
      ),
    ).not.toEqual([]);
  });

  it('of the example studio is one', async () => {
    const { out } = await runCommand('check', { as: 'sarif' }, { folder: EXAMPLE });
    expect(faults(out)).toEqual([]);
  });

  it.each(fixtureRules())('of a studio that is wrong in %s is one', async (rule) => {
    const { out } = await runCommand(
      'check',
      { as: 'sarif' },
      { folder: join(FIXTURES, rule, 'bad') },
    );
    expect(faults(out)).toEqual([]);
    expect(out).toContain(`"ruleId": "${rule}"`);
  });
});
