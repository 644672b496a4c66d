import { amountInWords, differenceInWords, VERDICT_WORDS } from '../heating-verdict.js';
import { roundHalfAway } from '../round-half-away.js';
import { type HeatingLine, lineOf } from './heating-line.js';

/** The keys that a verdict reads and those of its own lines. */
interface VerdictKeys {
  lowPounds: string;
  highPounds: string;
  sameWithinPounds: string;
  nearPounds: string;
  farPounds: string;
  amount: string;
  words: string;
  sentence: string;
}

/** A verdict in words, put together line by line: the amount, the amount with its direction, the sentence. */
export function verdictLines(keys: VerdictKeys): HeatingLine[] {
  const { same, cost, thanBoiler, close, thanTheBoiler, less, more, about, to } = VERDICT_WORDS;
  const text = { unit: 'none', format: 'text' } as const;
  return [
    wholePounds(keys, keys.nearPounds, 'Nearer to none', 'MIN'),
    wholePounds(keys, keys.farPounds, 'Farther from none', 'MAX'),
    lineOf(
      {
        key: keys.amount,
        label: 'Amount in words',
        ...text,
        description: 'How much less or more, to the pound, where both estimates say the same.',
      },
      [keys.nearPounds, keys.farPounds],
      ([near, far]) => amountInWords(near!, far!),
      ([near, far]) => `IF(${near}=${far},"${about}£"&${near},"£"&${near}&"${to}£"&${far})`,
    ),
    lineOf(
      { key: keys.words, label: 'Difference in words', ...text, description: 'The amount and which way.' },
      [keys.lowPounds, keys.highPounds],
      ([low, high]) => differenceInWords(low!, high!),
      ([low, high], at) => {
        const amount = at.cell(keys.amount);
        // 0-x, not -x: some programs show -0 as "-0".
        const both = `"£"&ROUND(0-${low},0)&"${less}${to}£"&ROUND(${high},0)&"${more}"`;
        return `IF(${high}<0,${amount}&"${less}",IF(${low}>0,${amount}&"${more}",${both}))`;
      },
    ),
    lineOf(
      { key: keys.sentence, label: 'Sentence', ...text, description: 'The difference as a sentence.' },
      [keys.lowPounds, keys.highPounds, keys.sameWithinPounds],
      ([low, high, within], at) => {
        if (Math.max(Math.abs(low!), Math.abs(high!)) <= within!) return same;
        const words = at.text(keys.words);
        return high! < 0 || low! > 0 ? cost + words + thanBoiler : close + words + thanTheBoiler;
      },
      ([low, high, within], at) => {
        const words = at.cell(keys.words);
        return (
          `IF(MAX(ABS(${low}),ABS(${high}))<=${within},"${same}",` +
          `IF(OR(${high}<0,${low}>0),"${cost}"&${words}&"${thanBoiler}","${close}"&${words}&"${thanTheBoiler}"))`
        );
      },
    ),
  ];
}

/** One end of the two estimates as an amount, to the pound. */
function wholePounds(keys: VerdictKeys, key: string, label: string, pick: 'MIN' | 'MAX'): HeatingLine {
  return lineOf(
    {
      key,
      label: `${label}, to the pound`,
      unit: '£',
      format: 'pounds',
      description: 'Of the lowest and the highest estimate, without its sign.',
    },
    [keys.lowPounds, keys.highPounds],
    ([low, high]) => {
      const ends = [Math.abs(low!), Math.abs(high!)];
      return roundHalfAway(pick === 'MIN' ? Math.min(...ends) : Math.max(...ends));
    },
    ([low, high]) => `ROUND(${pick}(ABS(${low}),ABS(${high})),0)`,
  );
}
