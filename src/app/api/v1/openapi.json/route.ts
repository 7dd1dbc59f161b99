/**
 * The document that describes /api/v1, for whoever writes a program or generates its client. Open to anybody.
 */
import { describeApi } from '../../describe-api.ts';

export async function GET(): Promise<Response> {
  return Response.json(describeApi(), {
    headers: { 'content-disposition': 'inline; filename="huskledger-openapi.json"' },
  });
}
