import { describe, expect, it } from 'vitest';
import { DESCRIPTIONS } from '../../schema/generated/descriptions.js';
import { KINDS, type Kind } from '../../src/book.ts';
import { addHelp } from '../../src/commands/records/add-help.ts';
import { fieldOptions } from '../../src/entry/fields.ts';

describe('help on a kind', () => {
  it.each(KINDS)(
    '%s: names every option, what the schema says of it, and every form',
    (kind: Kind) => {
      const text = addHelp(kind, 80);
      for (const { name, form } of fieldOptions(kind)) {
        expect(text).toMatch(new RegExp(`^  --${name}(?: |$)`, 'm'));
        if (form) expect(text.replace(/\s+/g, ' ')).toContain(form.about);
        for (const example of form?.examples ?? [])
          expect(text).toContain(`--${name} "${example}"`);
      }
      const running = text.replace(/\s+/g, ' ');
      for (const { path, example, form } of fieldOptions(kind)) {
        const place = path.filter((step) => typeof step === 'string').join('.');
        const described = DESCRIPTIONS[kind][place] ?? '';
        expect(described).toMatch(/^\S.*\.$/);
        expect(running).toContain(described);
        if (!form) expect(running).toContain(example);
      }
      for (const line of text.split('\n').slice(4))
        if (!line.startsWith('  saggar') && !line.startsWith('  --'))
          expect(line.length).toBeLessThanOrEqual(80);
    },
  );
});
