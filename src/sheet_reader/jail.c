#include "sheet_reader/jail.h"

#include "sheet/form.h"

#include <errno.h>
#include <stdbool.h>
#include <stddef.h>
#include <sys/resource.h>
#include <unistd.h>

#ifdef __linux__
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

static void limit(void)
{
    static const struct {
        unsigned what; /* glibc has an enumeration, which is unsigned */
        rlim_t soft, hard;
    } rows[] = {
        { RLIMIT_AS, (rlim_t)JAIL_MEMORY_MIB << 20, (rlim_t)JAIL_MEMORY_MIB << 20 },
        { RLIMIT_CPU, JAIL_PROCESSOR_S, JAIL_PROCESSOR_S + 1 },
        { RLIMIT_FSIZE, SHEET_RESULT_MOST, SHEET_RESULT_MOST },
        { RLIMIT_NOFILE, 0, 0 }, /* those that are open stay open */
        { RLIMIT_CORE, 0, 0 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct rlimit r = { rows[i].soft, rows[i].hard };
        setrlimit(rows[i].what, &r);
    }
}

#ifdef __linux__

/* Landlock's interface by number: the C library has no functions for it, and older headers no names. */
enum {
    CALL_CREATE_RULESET = 444,
    CALL_RESTRICT_SELF = 446,
    CREATE_RULESET_VERSION = 1,
};

/* A ruleset of everything this kernel can forbid, without a rule that allows any of it. */
static bool forbid_files(void)
{
    struct {
        uint64_t files, network, scopes;
    } forbidden = { 0 };
    long version = syscall(CALL_CREATE_RULESET, NULL, 0, CREATE_RULESET_VERSION);
    if (version < 1)
        return false;
    /* How many kinds of access each version knows: 13, one more in 2, 3 and 5; network in 4, signals and sockets in 6.
     */
    unsigned kinds = 13u + (version >= 2) + (version >= 3) + (version >= 5);
    forbidden.files = ((uint64_t)1 << kinds) - 1;
    forbidden.network = version >= 4 ? 3 : 0;
    forbidden.scopes = version >= 6 ? 3 : 0;
    long rules = syscall(CALL_CREATE_RULESET, &forbidden, sizeof forbidden, 0);
    if (rules < 0)
        return false;
    bool ok = syscall(CALL_RESTRICT_SELF, rules, 0) == 0;
    close((int)rules);
    return ok;
}

#if defined __x86_64__
#define JAIL_ARCHITECTURE AUDIT_ARCH_X86_64
#elif defined __aarch64__
#define JAIL_ARCHITECTURE AUDIT_ARCH_AARCH64
#endif

#ifdef JAIL_ARCHITECTURE

#define LOAD(field) BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, field))
#define ANSWER(what) BPF_STMT(BPF_RET | BPF_K, (what))
#define KILL ANSWER(SECCOMP_RET_KILL_PROCESS)
#define ALLOW ANSWER(SECCOMP_RET_ALLOW)
#define REFUSE(error) ANSWER(SECCOMP_RET_ERRNO | (error))
#define ON(call, answer) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (call), 0, 1), answer

/* The low half of the third argument, little-endian: where mmap and mprotect have what may be done with the memory. */
#define LOAD_ACCESS BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, args[2]))
#define LOAD_FLAGS BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, args[3]))

static const struct sock_filter filter[] = {
    LOAD(arch),
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, JAIL_ARCHITECTURE, 1, 0),
    KILL,
    LOAD(nr),
    /* the pipe and the result; memory; the clock; the end */
    ON(SYS_write, ALLOW),
    ON(SYS_brk, ALLOW),
    ON(SYS_munmap, ALLOW),
    ON(SYS_mremap, ALLOW),
    ON(SYS_madvise, ALLOW),
    ON(SYS_futex, ALLOW),
    ON(SYS_getrandom, ALLOW),
    ON(SYS_clock_gettime, ALLOW),
    ON(SYS_fstat, ALLOW),
    ON(SYS_exit_group, ALLOW),
    /* files that libraries look for are not there */
    ON(SYS_openat, REFUSE(ENOENT)),
    ON(SYS_newfstatat, REFUSE(ENOENT)),
    /* how much memory there is (the C library's sort asks) */
    ON(SYS_sysinfo, REFUSE(ENOSYS)),
    /* what abort does before it traps; so that it is told from an escape */
    ON(SYS_rt_sigprocmask, REFUSE(ENOSYS)),
    ON(SYS_rt_sigaction, REFUSE(ENOSYS)),
    ON(SYS_getpid, REFUSE(ENOSYS)),
    ON(SYS_gettid, REFUSE(ENOSYS)),
    ON(SYS_tgkill, REFUSE(ENOSYS)),
    /* memory that cannot be run */
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_mprotect, 4, 0),
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_mmap, 1, 0),
    KILL,
    LOAD_FLAGS,
    BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, MAP_ANONYMOUS, 0, 2),
    LOAD_ACCESS,
    BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, PROT_EXEC, 0, 1),
    KILL,
    ALLOW,
};

static bool forbid_calls(void)
{
    const struct sock_fprog program = { sizeof filter / sizeof filter[0], (struct sock_filter *)filter };
    return prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

#else

static bool forbid_calls(void)
{
    return false; /* its system calls' numbers are not known here */
}

#endif

unsigned jail_enter(void)
{
    bool no_more = prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0;
    unsigned missing = no_more && forbid_files() ? 0 : JAIL_NO_FILE_RULES;
    limit(); /* after the rules, which take a descriptor for a moment */
    return no_more && forbid_calls() ? missing : missing | JAIL_NO_FILTER;
}

#else

unsigned jail_enter(void)
{
    limit();
    return JAIL_NO_FILTER | JAIL_NO_FILE_RULES;
}

#endif
