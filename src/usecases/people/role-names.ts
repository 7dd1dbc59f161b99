/**
 * Roles as the database client names them, which cannot have a hyphen.
 */
import type { Role } from '../../domain/parties/permissions.ts';
import type { Role as StoredRole } from '../../store/generated/enums.ts';

export function roleOf(role: StoredRole): Role {
  return role === 'scale_operator' ? 'scale-operator' : role;
}

export function storedRole(role: Role): StoredRole {
  return role === 'scale-operator' ? 'scale_operator' : role;
}
