import { describe, expect, it } from 'vitest';
import { carryCommand } from '../../src/cli/commands/carry-command.js';

describe('the help of a command', () => {
  it('marks the options that have to be given', () => {
    const lines = carryCommand().helpInformation().replaceAll(/\s+/g, ' ');
    expect(lines).toContain('a file that is there stays (required)');
    expect(lines.match(/\(required\)/g)).toHaveLength(1);
  });
});
