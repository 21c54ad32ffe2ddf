/* Staging: a hidden folder, a lock on it, and moves that can be taken back.
 *
 *   folder/.tankside-PID-N/         what is new, under the names it shall have
 *   folder/.tankside-PID-N/before/  while it is published: what it replaces */
#include "base/staging.h"

#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { WAIT = 60, PAUSES = 50, NAME = 64 }; /* seconds for a lock; looks at it in one; characters */

static const char prefix[] = ".tankside-", before[] = "before";

struct ts_staging {
  int folder, inside, replaced; /* opened: where all belongs, the hidden folder, "before" in it */
  char name[NAME];              /* of the hidden folder */
  bool until_exit;              /* freed by at_exit */
  bool alone;                   /* inside a hidden folder: nobody else publishes there */
};

static void close_kept(int file) {
  int why = errno;
  if (file >= 0) close(file);
  errno = why;
}

/* ---- clearing away -------------------------------------------------------- */

/* A stream over a folder that is open already; the folder itself stays open. */
static DIR *listing(int folder) {
  int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  DIR *stream = again >= 0 ? fdopendir(again) : NULL;
  if (stream == NULL) close_kept(again);
  return stream;
}

static bool is_entry(const char *name) { return !ts_same(name, ".") && !ts_same(name, ".."); }

/* Removes a file, or a folder with all that is in it. What cannot be removed stays: the next run
 * will try again. */
static void clear_away(int folder, const char *name) {
  if (unlinkat(folder, name, 0) == 0 || (errno != EISDIR && errno != EPERM)) return;
  if (unlinkat(folder, name, AT_REMOVEDIR) == 0) return; /* an empty one needs no list */
  int inside = openat(folder, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  DIR *stream = inside >= 0 ? listing(inside) : NULL;
  for (const struct dirent *entry; stream != NULL && (entry = readdir(stream)) != NULL;)
    if (is_entry(entry->d_name)) clear_away(inside, entry->d_name);
  if (stream != NULL) closedir(stream);
  if (inside >= 0) close(inside);
  unlinkat(folder, name, AT_REMOVEDIR);
}

/* ".tankside-PID-N", as make() below names them. */
static bool is_staging_name(const char *name) {
  if (strncmp(name, prefix, sizeof prefix - 1) != 0) return false;
  const char *at = name + sizeof prefix - 1;
  size_t pid = strspn(at, "0123456789");
  size_t count = at[pid] == '-' ? strspn(at + pid + 1, "0123456789") : 0;
  return pid > 0 && count > 0 && at[pid + 1 + count] == '\0';
}

/* What is locked belongs to a run that lives; where a file system has no locks, nobody can tell. */
static void clear_left_over(int folder) {
  DIR *stream = listing(folder);
  for (const struct dirent *entry; stream != NULL && (entry = readdir(stream)) != NULL;) {
    if (!is_staging_name(entry->d_name)) continue;
    int left = openat(folder, entry->d_name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (left >= 0 && flock(left, LOCK_EX | LOCK_NB) == 0) clear_away(folder, entry->d_name);
    if (left >= 0) close(left);
  }
  if (stream != NULL) closedir(stream);
}

/* ---- making --------------------------------------------------------------- */

/* Between its making and its lock another run may have taken it for a left-over. */
static bool hold(int folder, const char *name, int inside) {
  struct stat ours, there;
  if (flock(inside, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) return false;
  return fstat(inside, &ours) == 0 && fstatat(folder, name, &there, AT_SYMLINK_NOFOLLOW) == 0 &&
         ours.st_ino == there.st_ino && ours.st_dev == there.st_dev;
}

static bool make(ts_staging *s) {
  for (int i = 0; i < 1000; i++) {
    snprintf(s->name, sizeof s->name, "%s%ld-%d", prefix, (long)getpid(), i);
    if (mkdirat(s->folder, s->name, 0700) != 0) {
      if (errno == EEXIST) continue;
      return false;
    }
    s->inside = openat(s->folder, s->name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (s->inside >= 0 && hold(s->folder, s->name, s->inside)) return true;
    if (s->inside < 0 && errno != ENOENT) return false;
    close_kept(s->inside);
    s->inside = -1;
  }
  errno = EEXIST;
  return false;
}

static void finish(ts_staging *s) {
  if (s->folder < 0) return;
  if (s->inside >= 0) clear_away(s->folder, s->name);
  close_kept(s->replaced);
  close_kept(s->inside); /* only now is the lock gone */
  close_kept(s->folder);
  s->folder = s->inside = s->replaced = -1;
}

/* exit() in the middle, as when memory runs out. */
static void at_exit(int status, void *staging) {
  (void)status;
  finish(staging);
  free(staging);
}

bool ts_staging_clear_at_exit(ts_staging *s) {
  s->until_exit = on_exit(at_exit, s) == 0;
  return s->until_exit;
}

static ts_staging *give_up(ts_staging *s) {
  int why = errno;
  ts_staging_free(s);
  errno = why;
  return NULL;
}

ts_staging *ts_staging_new(const char *folder) {
  ts_staging *s = ts_alloc(sizeof *s);
  s->inside = s->replaced = -1;
  s->folder = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (s->folder < 0) return give_up(s);
  s->alone = is_staging_name(ts_path_name(folder));
  if (!s->alone) clear_left_over(s->folder);
  return make(s) ? s : give_up(s);
}

void ts_staging_free(ts_staging *s) {
  if (s == NULL) return;
  finish(s);
  if (!s->until_exit) free(s);
}

int ts_staging_inside(const ts_staging *s) { return s->inside; }
const char *ts_staging_name(const ts_staging *s) { return s->name; }

/* ---- publishing ----------------------------------------------------------- */

typedef struct {
  const char *name;
  bool stale;    /* taken out, not moved in */
  bool replaces; /* something stood there */
} move;

static bool lock(int folder) {
  const struct timespec pause = {.tv_nsec = 1000000000 / PAUSES};
  for (int i = 0; i < WAIT * PAUSES; i++) {
    if (flock(folder, LOCK_EX | LOCK_NB) == 0) return true;
    if (errno != EWOULDBLOCK) return true; /* a file system without locks */
    nanosleep(&pause, NULL);
  }
  errno = EBUSY;
  return false;
}

static bool has_no_links(int why) { return why == EPERM || why == EOPNOTSUPP || why == EMLINK; }

/* What it replaces gets a second name first, so that at every moment one of the two stands there.
 */
static bool move_in(const ts_staging *s, move *m) {
  struct stat old;
  m->replaces = fstatat(s->folder, m->name, &old, AT_SYMLINK_NOFOLLOW) == 0;
  if (m->replaces && !S_ISREG(old.st_mode)) {
    errno = EEXIST;
    return false;
  }
  if (m->replaces &&
      (fchmodat(s->inside, m->name, old.st_mode & 0777, 0) != 0 ||
       (linkat(s->folder, m->name, s->replaced, m->name, 0) != 0 && !has_no_links(errno))))
    return false;
  return renameat(s->inside, m->name, s->folder, m->name) == 0;
}

static bool move_out(const ts_staging *s, move *m) {
  m->replaces = renameat(s->folder, m->name, s->replaced, m->name) == 0;
  return m->replaces || errno == ENOENT;
}

static void take_back(const ts_staging *s, const move *m) {
  if (m->replaces)
    (void)renameat(s->replaced, m->name, s->folder, m->name); /* the message is about what failed first */
  else if (!m->stale)
    unlinkat(s->folder, m->name, 0);
}

/* Some file systems cannot flush a folder; the files themselves are on the disk by now. */
static bool flush_folder(int folder) {
  return fsync(folder) == 0 || errno == EINVAL || errno == ENOTSUP;
}

static bool move_all(const ts_staging *s, move *moves, size_t count) {
  size_t done = 0;
  while (done < count && (moves[done].stale ? move_out(s, &moves[done]) : move_in(s, &moves[done])))
    done++;
  if (done == count && flush_folder(s->folder)) return true;
  int why = errno;
  while (done > 0) take_back(s, &moves[--done]);
  errno = why;
  return false;
}

/* By name, without a list: once the new set stands nothing may fail any more, for want of memory
 * neither. */
static void drop_replaced(const ts_staging *s, const move *moves, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (moves[i].replaces) unlinkat(s->replaced, moves[i].name, 0);
  unlinkat(s->inside, before, AT_REMOVEDIR);
}

static bool publish(ts_staging *s, move *moves, size_t count) {
  if (mkdirat(s->inside, before, 0700) != 0) return false;
  s->replaced = openat(s->inside, before, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  if (s->replaced < 0 || !(s->alone || lock(s->folder))) return false;
  bool good = move_all(s, moves, count);
  int why = errno;
  if (!s->alone) (void)flock(s->folder, LOCK_UN);
  if (good) drop_replaced(s, moves, count);
  errno = why;
  return good;
}

bool ts_staging_publish(ts_staging *s, const char *const *names, const char *const *stale) {
  size_t staged = 0, old = 0;
  while (names[staged] != NULL) staged++;
  while (stale != NULL && stale[old] != NULL) old++;
  move *moves = ts_alloc((staged + old + 1) * sizeof *moves);
  for (size_t i = 0; i < staged; i++) moves[i].name = names[i];
  for (size_t i = 0; i < old; i++) moves[staged + i] = (move){.name = stale[i], .stale = true};
  bool good = publish(s, moves, staged + old);
  int why = errno;
  free(moves);
  errno = why;
  return good;
}

/* Not every file system knows a renaming that fails where something is; a second name for the same
 * file does. */
bool ts_staging_publish_new(ts_staging *s, const char *name) {
  bool there = renameat2(s->inside, name, s->folder, name, RENAME_NOREPLACE) == 0;
  if (!there && (errno == EINVAL || errno == ENOSYS))
    there = linkat(s->inside, name, s->folder, name, 0) == 0;
  if (!there || flush_folder(s->folder)) return there;
  int why = errno;
  unlinkat(s->folder, name, 0);
  errno = why;
  return false;
}

/* ---- claiming ------------------------------------------------------------- */

static const char claim[] = ".tankside-busy";

/* Whoever held it before may have taken the name away meanwhile. */
static bool is_still_there(const char *path, int file) {
  struct stat ours, there;
  return fstat(file, &ours) == 0 && stat(path, &there) == 0 && ours.st_ino == there.st_ino &&
         ours.st_dev == there.st_dev;
}

ts_claim ts_folder_claim(const char *folder, bool wait) {
  char path[PATH_MAX];
  if (snprintf(path, sizeof path, "%s/%s", folder, claim) >= (int)sizeof path)
    return (ts_claim){TS_CLAIM_FAILED, -1};
  for (;;) {
    int file = open(path, O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (file < 0) return (ts_claim){TS_CLAIM_FAILED, -1};
    bool locked = flock(file, wait ? LOCK_EX : LOCK_EX | LOCK_NB) == 0;
    bool busy = !locked && errno == EWOULDBLOCK;
    if (!busy && is_still_there(path, file)) return (ts_claim){TS_CLAIMED, file};
    close(file);
    if (busy) return (ts_claim){TS_CLAIM_BUSY, -1};
  }
}

void ts_folder_release(const char *folder, ts_claim held) {
  char path[PATH_MAX];
  if (held.how != TS_CLAIMED) return;
  snprintf(path, sizeof path, "%s/%s", folder, claim);
  unlink(path); /* while it is locked: whoever waits for it sees that it is gone */
  close(held.file);
}
