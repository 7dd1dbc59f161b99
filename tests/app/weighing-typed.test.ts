import { describe, expect, test } from 'vitest';
import { followingTicket } from '../../src/app/scale/typed.ts';

describe('the ticket a phone offers next', () => {
  test('is the next of the series before anything is weighed', () => {
    expect(followingTicket('A-0012', { taken: [] })).toBe('A-0012');
  });

  test('follows the one just weighed, with as many digits', () => {
    expect(followingTicket('A-0012', { last: 'A-0099', taken: [] })).toBe('A-0100');
    expect(followingTicket('7', { last: '999', taken: [] })).toBe('1000');
  });

  test('passes over those that wait on the phone', () => {
    expect(followingTicket('12', { taken: ['12', '13', '15'] })).toBe('14');
    expect(followingTicket('12', { last: '12', taken: ['12', '13'] })).toBe('14');
  });

  test('is left to be typed after a ticket that ends in no digit', () => {
    expect(followingTicket('12', { last: '12-b', taken: [''] })).toBe('');
  });
});
