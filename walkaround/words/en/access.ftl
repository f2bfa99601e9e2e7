# The pages of whoever is not let in; `access-language` is the code of this language.

access-language = en
access-unpaired-title = This device is not paired
access-unpaired-text = Go to the computer that runs walkaround and scan the code on its screen with this device, or open the whole address that it shows, with the key at its end.
access-foreign-title = Not from here
access-foreign-text = Open the very address that walkaround shows on the computer that runs it.
access-large-title = Too much at once
access-large-text = Nothing that is sent here may be as large as this.
access-wait-title = Too many wrong keys
access-wait-text = Too many wrong keys came from this device or its network. Wait a minute, then scan the code on the screen of the computer that runs walkaround.
access-full-title = Too many pages are open
access-full-text = Close pages that nobody looks at, then load this one again.

# Certificates of one's own.
trouble-no-file = there is no file { $path }
trouble-certificate-unreadable = { $chain } or { $key } cannot be read
problem-make-them-readable = make them readable
trouble-no-certificate = { $chain } and { $key } are no certificate and its key
problem-give-two-pem-files = give two PEM files that belong together, the key without a password

# Where the app is served.
address-port-taken = Port { $port } on { $host } cannot be used ({ $reason }); choose another with --port, or stop the program that has it.
address-no-port = There is no port { $port }; choose one from 0 to 65535 with --port.
address-no-network = This computer is in no network that --lan could open to; connect it first, or name its address with --host.
