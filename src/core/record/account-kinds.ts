/** What people and links of a shop may be. */
export const ROLES = ['operator', 'supervisor', 'owner'] as const
/** Operators say who they are with a PIN; supervisors and owners sign in with a password. */
export type Role = (typeof ROLES)[number]

/** For reading records, and for a calendar program. */
export const LINK_KINDS = ['inspector', 'calendar'] as const
export type LinkKind = (typeof LINK_KINDS)[number]
