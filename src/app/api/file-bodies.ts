/**
 * Files as /api/v1 takes and hands them out: pictures and PDF, known by their content.
 */
import { z } from 'zod';
import { FILE_KINDS } from '../../domain/files/file-kind.ts';
import type { RawBody } from './operation.ts';

export const FILES = { kinds: FILE_KINDS } as const satisfies RawBody;

export const FILE_NAME = z.strictObject({
  name: z.string().max(200).default('file').describe('What people will see it called.'),
});
