/* Preloaded into a test process: once armed, the Nth call that changes a file kills it.

   With `torn`, the Nth call is a write that gets half of its bytes onto the disk first. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <signal.h>
#include <sys/types.h>
#include <unistd.h>

static long left = 0;
static int tear = 0;

void arm(long calls, int torn) { left = calls; tear = torn; }
long calls_left(void) { return left; }

static int due(void) { return left > 0 && --left == 0; }
static void die(void) { kill(getpid(), SIGKILL); for (;;) pause(); }

#define REAL(name, ...) ((int (*)(__VA_ARGS__))dlsym(RTLD_NEXT, #name))

#define WRITE(name, off)                                                              \
    ssize_t name(int fd, const void *from, size_t size, off at) {                     \
        ssize_t (*real)(int, const void *, size_t, off) = dlsym(RTLD_NEXT, #name);    \
        if (due()) {                                                                  \
            if (tear) real(fd, from, size / 2, at);                                   \
            die();                                                                    \
        }                                                                             \
        return real(fd, from, size, at);                                              \
    }
WRITE(pwrite, off_t)
WRITE(pwrite64, off64_t)

int fsync(int fd) { if (due()) die(); return REAL(fsync, int)(fd); }
int fdatasync(int fd) { if (due()) die(); return REAL(fdatasync, int)(fd); }
int unlink(const char *path) { if (due()) die(); return REAL(unlink, const char *)(path); }
int ftruncate(int fd, off_t size) { if (due()) die(); return REAL(ftruncate, int, off_t)(fd, size); }
int ftruncate64(int fd, off64_t size) { if (due()) die(); return REAL(ftruncate64, int, off64_t)(fd, size); }
int link(const char *a, const char *b) { if (due()) die(); return REAL(link, const char *, const char *)(a, b); }
