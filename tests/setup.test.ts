import { assert, integer, property, readConfigureGlobal } from 'fast-check';
import { describe, expect, it } from 'vitest';

describe('every test', () => {
  it.fails('fails if it prints', () => {
    console.log('printed on purpose');
  });

  it('draws the same cases as on the run before', () => {
    const draw = () => {
      const drawn: number[] = [];
      assert(
        property(integer(), (n) => {
          drawn.push(n);
        }),
      );
      return drawn;
    };
    expect(readConfigureGlobal().seed).toBeTypeOf('number');
    expect(draw()).toEqual(draw());
  });
});
