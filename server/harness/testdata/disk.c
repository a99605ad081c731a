/*
 * A disk that fails as it is told, under SQLite in the process of a test: loaded before the C library, it sees what
 * SQLite does to its files. Beside each file it keeps what is surely on the disk (FILE.disk) and, in FILE.pending, what
 * was written since and was not flushed: when the power goes, any part of that may be there or not. disk.go is the other
 * side of the control block.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

struct slot {
  char dir[488];
  int64_t asleep;    /* nothing happens */
  int64_t left;      /* the power goes at this many operations from now; 0: it stays */
  int64_t off;       /* the power is gone */
  int64_t lies;      /* flushing does nothing, and says that it did */
  int64_t write_in;  /* the write that many from now fails */
  int64_t flush_in;  /* the same of flushing, which loses what was to be flushed */
  int64_t read_in;   /* the same of reading */
  int64_t full;      /* no file grows */
  int64_t writes;    /* how much was done */
};
enum { slots = 8 };

static struct slot *control;
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;

enum { most = 4096 };
static struct { char *path; struct slot *slot; } files[most];

static ssize_t (*real_pwrite)(int, const void *, size_t, off64_t);
static ssize_t (*real_pread)(int, void *, size_t, off64_t);
static ssize_t (*real_write)(int, const void *, size_t);
static ssize_t (*real_read)(int, void *, size_t);
static int (*real_fsync)(int), (*real_fdatasync)(int), (*real_close)(int), (*real_unlink)(const char *);
static int (*real_ftruncate)(int, off64_t);
static int (*real_open)(const char *, int, ...);

__attribute__((constructor)) static void begin(void) {
  real_pwrite = dlsym(RTLD_NEXT, "pwrite64");
  real_pread = dlsym(RTLD_NEXT, "pread64");
  real_write = dlsym(RTLD_NEXT, "write");
  real_read = dlsym(RTLD_NEXT, "read");
  real_fsync = dlsym(RTLD_NEXT, "fsync");
  real_fdatasync = dlsym(RTLD_NEXT, "fdatasync");
  real_close = dlsym(RTLD_NEXT, "close");
  real_unlink = dlsym(RTLD_NEXT, "unlink");
  real_ftruncate = dlsym(RTLD_NEXT, "ftruncate64");
  real_open = dlsym(RTLD_NEXT, "open64");
  const char *name = getenv("WIREWAKE_DISK");
  int fd = name ? real_open(name, O_RDWR) : -1;
  if (fd < 0) return;
  void *at = mmap(NULL, slots * sizeof(struct slot), PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
  if (at != MAP_FAILED) control = at;
  real_close(fd);
}

static struct slot *slot_of(const char *path) {
  if (!control || strstr(path, "-shm")) return NULL;
  const char *name = strstr(path, "/wirewake.db");
  if (!name || strchr(name + 1, '/')) return NULL;
  for (int i = 0; i < slots; i++)
    if (control[i].dir[0] && strlen(control[i].dir) == (size_t)(name - path) && !strncmp(control[i].dir, path, name - path))
      return &control[i];
  return NULL;
}

static char *beside(const char *path, const char *ending) {
  static __thread char name[1024];
  snprintf(name, sizeof name, "%s%s", path, ending);
  return name;
}

/* copy makes one file what another is. */
static void copy(const char *from, const char *to) {
  int in = real_open(from, O_RDONLY), out = real_open(to, O_RDWR | O_CREAT | O_TRUNC, 0600);
  char piece[1 << 16];
  ssize_t n;
  while (in >= 0 && (n = real_read(in, piece, sizeof piece)) > 0) real_write(out, piece, n);
  real_close(in);
  real_close(out);
}

/* pend notes a write, or with n < 0 that a file was cut to at. */
static void pend(const char *path, int64_t at, int64_t n, const void *what) {
  int fd = real_open(beside(path, ".pending"), O_WRONLY | O_CREAT | O_APPEND, 0600);
  int64_t head[2] = {at, n};
  real_write(fd, head, sizeof head);
  if (n > 0) real_write(fd, what, n);
  real_close(fd);
}

/* flush makes what was written sure. */
static void flush(const char *path) {
  char sure[1024];
  snprintf(sure, sizeof sure, "%s.disk", path);
  char *pending = beside(path, ".pending");
  int in = real_open(pending, O_RDONLY), out = real_open(sure, O_RDWR | O_CREAT, 0600);
  int64_t head[2];
  while (in >= 0 && real_read(in, head, sizeof head) == sizeof head) {
    if (head[1] < 0) {
      real_ftruncate(out, head[0]);
      continue;
    }
    char *what = malloc(head[1] + 1);
    real_read(in, what, head[1]);
    real_pwrite(out, what, head[1], head[0]);
    free(what);
  }
  if (in >= 0) real_close(in);
  real_close(out);
  real_unlink(pending);
}

/* awake is the slot of an open file, if something may happen to it. */
static struct slot *awake(int fd) {
  if (fd < 0 || fd >= most || !files[fd].path) return NULL;
  return files[fd].slot;
}

static int falls(int64_t *in) { return *in > 0 && --*in == 0; }

/* gone says that the power is gone, or goes with this operation. */
static int gone(struct slot *s) {
  if (s->asleep) return 0;
  s->writes++;
  if (!s->off && falls(&s->left)) s->off = 1;
  return s->off;
}

static int fail(int number) {
  pthread_mutex_unlock(&lock);
  errno = number;
  return -1;
}

ssize_t pwrite64(int fd, const void *what, size_t n, off64_t at) {
  struct slot *s = awake(fd);
  if (!s) return real_pwrite(fd, what, n, at);
  pthread_mutex_lock(&lock);
  int before = s->off;
  if (gone(s)) {
    if (!before) pend(files[fd].path, at, n, what); /* it was on its way */
    return fail(EIO);
  }
  struct stat64 is;
  if (!s->asleep && falls(&s->write_in)) return fail(EIO);
  if (!s->asleep && s->full && !fstat64(fd, &is) && at + (off64_t)n > is.st_size) return fail(ENOSPC);
  ssize_t done = real_pwrite(fd, what, n, at);
  if (done > 0) pend(files[fd].path, at, done, what);
  pthread_mutex_unlock(&lock);
  return done;
}
ssize_t pwrite(int fd, const void *what, size_t n, off_t at) { return pwrite64(fd, what, n, at); }

ssize_t write(int fd, const void *what, size_t n) {
  if (!awake(fd)) return real_write(fd, what, n);
  off64_t at = lseek64(fd, 0, SEEK_CUR);
  ssize_t done = pwrite64(fd, what, n, at);
  if (done > 0) lseek64(fd, at + done, SEEK_SET);
  return done;
}

ssize_t pread64(int fd, void *into, size_t n, off64_t at) {
  struct slot *s = awake(fd);
  if (s && !s->asleep) {
    pthread_mutex_lock(&lock);
    if (falls(&s->read_in)) return fail(EIO);
    pthread_mutex_unlock(&lock);
  }
  return real_pread(fd, into, n, at);
}
ssize_t pread(int fd, void *into, size_t n, off_t at) { return pread64(fd, into, n, at); }

ssize_t read(int fd, void *into, size_t n) {
  if (!awake(fd)) return real_read(fd, into, n);
  off64_t at = lseek64(fd, 0, SEEK_CUR);
  ssize_t done = pread64(fd, into, n, at);
  if (done > 0) lseek64(fd, at + done, SEEK_SET);
  return done;
}

static int sure(int fd) {
  struct slot *s = awake(fd);
  pthread_mutex_lock(&lock);
  if (gone(s)) return fail(EIO);
  if (!s->asleep && falls(&s->flush_in)) {
    real_unlink(beside(files[fd].path, ".pending")); /* as the system does: it is clean now, and not on the disk */
    return fail(EIO);
  }
  if (s->asleep || !s->lies) flush(files[fd].path);
  pthread_mutex_unlock(&lock);
  return 0;
}
int fsync(int fd) { return awake(fd) ? sure(fd) : real_fsync(fd); }
int fdatasync(int fd) { return awake(fd) ? sure(fd) : real_fdatasync(fd); }

int ftruncate64(int fd, off64_t size) {
  struct slot *s = awake(fd);
  if (!s) return real_ftruncate(fd, size);
  pthread_mutex_lock(&lock);
  if (gone(s)) return fail(EIO);
  int done = real_ftruncate(fd, size);
  if (!done) pend(files[fd].path, size, -1, NULL);
  pthread_mutex_unlock(&lock);
  return done;
}
int ftruncate(int fd, off_t size) { return ftruncate64(fd, size); }

int unlink(const char *path) {
  struct slot *s = slot_of(path);
  if (!s) return real_unlink(path);
  pthread_mutex_lock(&lock);
  if (gone(s)) return fail(EIO);
  int done = real_unlink(path);
  real_unlink(beside(path, ".disk"));
  real_unlink(beside(path, ".pending"));
  pthread_mutex_unlock(&lock);
  return done;
}

int open64(const char *path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
  va_end(more);
  int fd = real_open(path, flags, mode);
  struct slot *s = fd < 0 || fd >= most ? NULL : slot_of(path);
  if (!s) return fd;
  pthread_mutex_lock(&lock);
  if (access(beside(path, ".disk"), F_OK)) copy(path, beside(path, ".disk"));
  free(files[fd].path);
  files[fd].path = strdup(path);
  files[fd].slot = s;
  pthread_mutex_unlock(&lock);
  return fd;
}
int open(const char *path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
  va_end(more);
  return open64(path, flags, mode);
}

int close(int fd) {
  if (fd >= 0 && fd < most && files[fd].path) {
    pthread_mutex_lock(&lock);
    free(files[fd].path);
    files[fd].path = NULL;
    files[fd].slot = NULL;
    pthread_mutex_unlock(&lock);
  }
  return real_close(fd);
}
