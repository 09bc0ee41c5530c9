/** `saggar revise RECIPE …`: a new version of a recipe, from a day on. */
import { NOUN, withArticle } from '../../check/finding.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { revised, type RevisionSaid } from '../../entry/recipes/revise.ts';
import { revisionLines } from '../../entry/recipes/revision-words.ts';
import { dayMeant } from '../../number/date.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { amendWith } from './amend.ts';
import { complainOf, type Agreed, type Scene } from './change.ts';
import { askedRecord } from './find-record.ts';
import { unknownId } from '../ids.ts';
import { inStudio, whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { notADay } from '../reports/span.ts';
import { EXIT, isRefusal, mayAsk, type Refusal } from '../world.ts';
import { tiled } from '../tracing/tile.ts';
import { notWritten } from './writer.ts';

type ReviseOptions = OptionsOf<'revise'>;

/** Writes a new version of a recipe, and leaves the others as they are. */
export const revise: CommandOf<'revise'> = (asked, world) => {
  const { base = [], addition = [], tile } = asked.options;
  const isSaid = asked.words.length > 1 || base.length + addition.length > 0 || tile !== undefined;
  return !isSaid && mayAsk(world, asked.options)
    ? inStudio({ asked, world }, askWhatChanges)
    : whileLocked({ asked, world }, (scene) => reviseAsked(scene));
};

async function askWhatChanges(scene: Scene<ReviseOptions>): Promise<number> {
  const { asked, world } = scene;
  const recipe = asked.argument === undefined ? undefined : askedRecipe(scene);
  if (recipe && isRefusal(recipe)) return refuse(world, recipe);
  const { askAndRevise } = await import('./ask-for.ts');
  return askAndRevise(scene, recipe, (said, inner, agreed) => {
    const all: AskedOf<'revise'> = {
      argument: said.words[0],
      words: said.words,
      options: { ...asked.options, ...said.options },
    };
    return inStudio({ asked: all, world: inner }, (again) => reviseAsked(again, agreed));
  });
}

async function reviseAsked(typed: Scene<ReviseOptions>, agreed?: Agreed): Promise<number> {
  const { world, opened } = typed;
  const scene = tiled(typed);
  if (isRefusal(scene)) return refuse(world, scene);
  const recipe = askedRecipe(scene);
  if (isRefusal(recipe)) return refuse(world, recipe);
  const said = revisionSaid(scene);
  if (isRefusal(said)) return refuse(world, said);
  const made = revised(recipe, said, lexiconOf(opened.reading.files));
  if (isRefusal(made)) return notWritten(world, made.refused);
  if ('faults' in made) {
    const problems = typedProblems(made.faults, (fault) => inWord(String(fault.path[0]), fault));
    complainOf(world, problems);
    return EXIT.errors;
  }
  return amendWith(scene, recipe, {
    amendments: [made.amendment],
    done: `Added a version from ${said.from} on to ${recipe.id}`,
    shown: revisionLines(made),
    asking: {},
    agreed,
  });
}

function askedRecipe({ asked, opened }: Scene<ReviseOptions>): FoundRecord | Refusal {
  if (asked.argument === undefined)
    return { refused: 'say which recipe, as in saggar revise sea-green "rutile 3%"' };
  const lexicon = lexiconOf(opened.reading.files);
  if (!lexicon.find(asked.argument))
    return unknownId('recipe', asked.argument, lexicon.ids(['recipes']));
  const record = askedRecord(asked, opened);
  if (isRefusal(record) || record.kind === 'recipes') return record;
  return { refused: `${record.id} is ${withArticle(NOUN[record.kind])}, not a recipe` };
}

function revisionSaid({ asked, opened }: Scene<ReviseOptions>): RevisionSaid | Refusal {
  const { base = [], addition: additions = [], from: words, note } = asked.options;
  const changes = asked.words.slice(1);
  if (changes.length + base.length + additions.length === 0)
    return {
      refused: `say what changes, as in saggar revise ${asked.argument ?? ''} "kaolin 12" "without rutile"`,
    };
  const from = words === undefined ? opened.asOf : dayMeant(words, opened.asOf);
  if (from === undefined) return notADay('--from', words ?? '');
  return { changes, base, additions, from, note };
}
