/**
 * What a form's field ids begin with, so that two forms of a page may each have a field of one name.
 */
'use client';

import { createContext } from 'react';

/** '' for the only form of its kind on a page. */
export const FormScope = createContext('');
