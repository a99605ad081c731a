package cluster

import "syscall"

// endWithTest has a program end when the test ends, however that does.
func endWithTest(as *syscall.SysProcAttr) { as.Pdeathsig = syscall.SIGQUIT }
