import type { Say } from './say.ts';

/** What the advice after the order is called on paper: by whether the car was weighed. */
const HEADINGS = { weighed: 'After weighing', ordered: 'With what was ordered' } as const;

/** The heading of the advice on coilovers that are bought. */
export function adviceHeading(isWeighed: boolean): string {
  return isWeighed ? HEADINGS.weighed : HEADINGS.ordered;
}

/** What to do about a conflict, by whether following the advice on what was bought cures it. */
export function fixAfterAdvice(say: Say, otherwise: string): string {
  if (!say.has('afterAdvice')) return otherwise;
  const springs = say.list('newSprings');
  const changed =
    springs.length === 0
      ? ''
      : `change the ${springs.join(' and ')} spring${springs.length > 1 ? 's' : ''} and `;
  const done = `${changed}turn the perches as in "${adviceHeading(say.is('weighed'))}"`;
  return say.text('afterAdvice') === 'cured'
    ? `${done}: that cures it`
    : `${done}; as it remains after that, ${otherwise}`;
}
