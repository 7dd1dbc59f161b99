/**
 * A document about money as an electronic invoice (UBL), for the countries that the address names.
 */
import { writeDocumentXml } from '../../../../../usecases/money/print-money.ts';
import { answer } from '../../../../server/answer.ts';
import { currentContext } from '../../../../server/current-caller.ts';
import { textFile } from '../../../../server/file-response.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id } = await params;
    const asked = new URL(request.url).searchParams;
    const country = (side: string) => (asked.get(side) ?? '').trim().toUpperCase();
    const file = await writeDocumentXml(await currentContext(), {
      documentId: id,
      countries: { seller: country('seller'), buyer: country('buyer') },
    });
    return textFile(file, 'application/xml; charset=utf-8');
  });
}
