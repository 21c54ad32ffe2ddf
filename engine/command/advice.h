/* What to do next in a folder. */
#ifndef TS_COMMAND_ADVICE_H
#define TS_COMMAND_ADVICE_H

/* Looks at the dossier and the assessments in a folder and one below, and says in a few lines what
 * is due. DONE where nothing is, LOOK where something is, NOT_DONE where there is no dossier. */
int advise(const char *folder);

#endif
