/**
 * Who is offered to act under an agreement. An adviser's people have their roles in its own party, and none here.
 */
import { mayDo, type Role, type Verb } from '../../domain/parties/permissions.ts';

/** Whether a person of a role may do it in an agreement that their party is on this side of. */
export function mayAct(side: 'seller' | 'buyer' | 'adviser', role: Role, verb: Verb): boolean {
  return side !== 'adviser' && mayDo(role, verb);
}
